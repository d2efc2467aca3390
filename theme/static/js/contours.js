// Lines of equal thickness over a lens: a net of places with the engine's own thicknesses, and what runs through it.
// Asked for late: see `later` in core.js.  Places in the nasal frame from the lens's reference point, millimeters.
// SPDX-License-Identifier: AGPL-3.0-or-later
(function () {
  "use strict";

  const book = globalThis.bevelbook;
  const kernel = globalThis.bevelKernel;

  // Rings from the middle of the lens to its rim: between two of them a lens bends by less than 0.01 mm
  const RINGS = 24;
  // How far the rays from the middle are apart on the rim, mm
  const SIDE = 2;
  // No more lines than can be told apart; what may lie between two of them, mm
  const MOST_LINES = 8;
  const STEPS = [0.1, 0.2, 0.5, 1, 2, 5];
  // A line this near, in steps, to the thinnest or the thickest place would run along the rim
  const HARDLY = 0.05;

  const round = (value) => Math.round(value * 100) / 100;

  // The outline with points at most SIDE apart, so that lines across a long side bend as the lens does.
  function finer(rim) {
    const [xs, ys] = [[], []];
    rim.xs.forEach((x, i) => {
      const [u, v] = [rim.xs.at(i - 1), rim.ys.at(i - 1)];
      const parts = Math.ceil(Math.hypot(x - u, rim.ys[i] - v) / SIDE) || 1;
      for (let part = 1; part <= parts; part++) {
        xs.push(u + ((x - u) * part) / parts);
        ys.push(v + ((rim.ys[i] - v) * part) / parts);
      }
    });
    return { xs, ys };
  }

  // A net over the lens, its rays from the middle of the box to each point of the outline: places and thicknesses.
  function netOf(found, side) {
    const ground = book.groundLens(found, side);
    if (!ground || ground.lens.edge_min <= 0) return null;
    const { lens, made, rim } = ground;
    const back = kernel.thickness.back_surface(made, lens.center);
    const [x, y] = [-lens.decentration_in, -lens.decentration_up];
    const { xs, ys } = finer(rim);
    const net = { xs: [x], ys: [y], reach: rim.reach };
    for (let ring = 1; ring <= RINGS; ring++) {
      for (let ray = 0; ray < xs.length; ray++) {
        net.xs.push(x + ((xs[ray] - x) * ring) / RINGS);
        net.ys.push(y + ((ys[ray] - y) * ring) / RINGS);
      }
    }
    const thickAt = (some) => kernel.thickness.edges(some, kernel.thickness.lost_in_front(made, some), back, lens.center);
    const rimThick = thickAt(rim);
    const [thickest, thinnest] = [-1, 1].map((sign) =>
      kernel.edge.extreme_on_rim(made, back, lens.center, rim, rimThick, sign));
    return { ...net, side, turn: side === "right" ? 1 : -1, count: xs.length, thick: thickAt(net), lens, made, back, rim, thickest, thinnest };
  }

  // The number of a node: 0 is the middle, then ring by ring.
  const node = (net, ring, ray) => (ring === 0 ? 0 : 1 + (ring - 1) * net.count + (ray % net.count));

  // Each triangle of the net, its corners counter-clockwise.
  function eachTriangle(net, work) {
    for (let ray = 0; ray < net.count; ray++) {
      work(0, node(net, 1, ray), node(net, 1, ray + 1));
      for (let ring = 1; ring < RINGS; ring++) {
        const [a, b] = [node(net, ring, ray), node(net, ring, ray + 1)];
        const [c, d] = [node(net, ring + 1, ray + 1), node(net, ring + 1, ray)];
        work(a, d, c);
        work(a, c, b);
      }
    }
  }

  // What is at least so thick, as closed lines: pieces inside the net, and along the rim where the rim is so thick.
  function loopsOf(net, level) {
    const { thick, xs, ys, count } = net;
    const total = thick.length;
    const next = new Map();
    const crossing = (a, b) => total + Math.min(a, b) * total + Math.max(a, b);
    const place = (key) => {
      if (key < total) return [xs[key], ys[key]];
      const [a, b] = [Math.floor((key - total) / total), (key - total) % total];
      const part = (level - thick[a]) / (thick[b] - thick[a]);
      return [xs[a] + (xs[b] - xs[a]) * part, ys[a] + (ys[b] - ys[a]) * part];
    };
    const high = (one) => thick[one] >= level;
    eachTriangle(net, (a, b, c) => {
      let out = -1;
      let back = -1;
      for (const [one, other] of [[a, b], [b, c], [c, a]]) {
        if (high(one) && !high(other)) out = crossing(one, other);
        if (!high(one) && high(other)) back = crossing(one, other);
      }
      if (out >= 0) next.set(out, { to: back, rim: false });
    });
    for (let ray = 0; ray < count; ray++) {
      const [one, other] = [node(net, RINGS, ray), node(net, RINGS, ray + 1)];
      if (!high(one) && !high(other)) continue;
      const from = high(one) ? one : crossing(one, other);
      next.set(from, { to: high(other) ? other : crossing(one, other), rim: true });
    }
    const loops = [];
    while (next.size) {
      const start = next.keys().next().value;
      const loop = [];
      for (let key = start; next.has(key); ) {
        const { to, rim } = next.get(key);
        next.delete(key);
        loop.push({ at: place(key), rim });
        key = to;
      }
      loops.push(loop);
    }
    return loops;
  }

  // Path data of the areas, and of their edges inside the lens alone.
  function pathsOf(loops, turn) {
    const point = ([x, y]) => `${round(turn * x)} ${round(-y)}`;
    let area = "";
    let line = "";
    for (const loop of loops) {
      area += `M${loop.map((one) => point(one.at)).join("L")}Z`;
      loop.forEach((one, i) => {
        if (one.rim) return;
        const before = loop[(i + loop.length - 1) % loop.length];
        if (i === 0 || before.rim) line += `M${point(one.at)}`;
        line += `L${point(loop[(i + 1) % loop.length].at)}`;
      });
    }
    return [area, line];
  }

  // The thicknesses that get a line: whole steps between the thinnest and the thickest of all lenses shown.
  function levelsOf(nets) {
    const all = nets.flatMap((net) => net.thick);
    const [least, most] = [all.reduce((a, b) => Math.min(a, b)), all.reduce((a, b) => Math.max(a, b))];
    const step = STEPS.find((one) => (most - least) / one <= MOST_LINES) ?? STEPS.at(-1);
    const levels = [];
    for (let i = Math.floor(least / step + HARDLY) + 1; i * step < most - HARDLY * step; i++) levels.push(i * step);
    return { levels, places: step < 1 ? 1 : 0 };
  }

  Object.assign(book, { contours: { RINGS, netOf, node, loopsOf, pathsOf, levelsOf } });
})();
