// The front of a frame from its box, its shape family and its colors, to scale: also of one that the shop has no more.
// SPDX-License-Identifier: AGPL-3.0-or-later
(function () {
  "use strict";

  const { shop, draw } = globalThis.bevelbook;
  const { from_box } = globalThis.bevelKernel.outline;
  const ROOM = 9;
  const WIDE = { "full-rim-plastic": 3.5, "full-rim-metal": 1.4, "semi-rimless": 1.2, drilled: 0.5 };
  const number = (value) => String(Math.round(value * 100) / 100);
  const line = (points, close) => "M" + points.map(([u, v]) => `${number(u)} ${number(v)}`).join("L") + (close ? "Z" : "");
  const both = (points, close) => line(points, close) + line(points.map(([u, v]) => [-u, v]), close);

  // The outline moved outward by so much, along the mean of its two sides at each point.
  function widened(points, width) {
    const count = points.length;
    const sides = points.map(([u, v], at) => {
      const [next_u, next_v] = points[(at + 1) % count];
      const long = Math.hypot(next_u - u, next_v - v) || 1;
      return [(next_v - v) / long, -(next_u - u) / long];
    });
    return points.map(([u, v], at) => {
      const before = sides[(at + count - 1) % count];
      const [nu, nv] = [before[0] + sides[at][0], before[1] + sides[at][1]];
      const long = Math.hypot(nu, nv) || 1;
      return [u + (nu / long) * width, v + (nv / long) * width];
    });
  }

  // The trace of that very size, where the shop has the frame and one of it: [xs, ys], or undefined.
  function traced(frame) {
    const sizes = (globalThis.bevelFrames ?? []).find((one) => one.id === frame.id)?.sizes ?? [];
    const same = (size) => ["a", "b", "dbl"].every((name) => Math.round(size[name] * 100) === frame[name]);
    const found = sizes.find(same);
    return found?.xs && [found.xs, found.ys];
  }

  // null where there is no such shape.
  function front(frame, label) {
    const [a, b, dbl, ed] = [frame.a, frame.b, frame.dbl, frame.ed].map((value) => value / 100);
    const known = Object.hasOwn(WIDE, frame.mounting) && a >= 10 && b >= 10 && a <= 90 && b <= 90;
    if (!known) return null;
    let xs, ys;
    try {
      [xs, ys] = traced(frame) ?? from_box(a, b, ed, frame.family);
    } catch {
      return null;
    }
    const points = xs.map((x, at) => [(a + dbl) / 2 - x, -ys[at]]);
    const rim = shop.mountings[frame.mounting] ? WIDE[frame.mounting] : 1;
    const [color, temples] = [`#${frame.front}`, `#${frame.temples}`];
    const outer = widened(points, rim);
    const side = Math.max(...outer.map(([u]) => u));
    const nose = Math.min(...outer.map(([u]) => u));
    const plastic = frame.mounting === "full-rim-plastic";
    const high = -b / 5;
    const wire = (d, width) => [
      draw("path", { class: "wire-edge", fill: "none", "stroke-width": width + 0.5, d }),
      draw("path", { class: "wire", fill: "none", stroke: color, "stroke-width": width, d }),
    ];
    const hinge = both([[side - 1.5, high - 2.5], [side + 4, high - 2.5], [side + 4, high + 2.5], [side - 1.5, high + 2.5]], true);
    const bridge = `M${number(-nose - 1)} ${number(high)}Q0 ${number(high - dbl / 4)} ${number(nose + 1)} ${number(high)}`;
    const glass = draw("path", { class: `glass ${frame.sun ? "sun" : ""}`, d: both(points, true) });
    const held = [draw("path", { class: "front-piece", fill: temples, d: hinge })];
    if (plastic) {
      held.push(...wire(bridge, 5), draw("path", { class: "front-piece", fill: color, "fill-rule": "evenodd", d: both(outer, true) + both(points, true) }));
    } else {
      held.push(...wire(bridge, 1.9));
      if (frame.mounting === "full-rim-metal") held.push(...wire(both(widened(points, rim / 2), true), rim));
      const upper = points.filter(([, v]) => v < b / 20);
      const from = upper.findIndex(([u], at) => at > 0 && Math.hypot(u - upper[at - 1][0], upper[at][1] - upper[at - 1][1]) > a / 4);
      if (frame.mounting === "semi-rimless") held.push(...wire(both([...upper.slice(from), ...upper.slice(0, from)], false), rim));
    }
    const box = [-side - ROOM, -b / 2 - ROOM / 2, 2 * (side + ROOM), b + ROOM];
    return draw("svg", { class: "drawing front", role: "img", "aria-label": label, viewBox: box.map(number).join(" ") },
      ...(plastic ? [...held, glass] : [glass, ...held]));
  }

  Object.assign(globalThis.bevelbook, { quoteFront: front });
})();
