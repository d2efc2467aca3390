// How thick the chosen lens is all over: lines of equal thickness, from the engine's own surfaces.
// Asked for late: see `later` in core.js.  Places in the nasal frame from the lens's reference point, millimeters.
// SPDX-License-Identifier: AGPL-3.0-or-later
(function () {
  "use strict";

  const book = globalThis.bevelbook;
  const { shop, make, draw, mm, say, groundLens } = book;
  const kernel = globalThis.bevelKernel;
  const SIDES = ["right", "left"];

  // Rings from the middle of the lens to its rim: between two of them a lens bends by less than 0.01 mm
  const RINGS = 24;
  const SIDE = 2;
  // No more lines than can be told apart; what may lie between two of them, mm
  const MOST_LINES = 8;
  const STEPS = [0.1, 0.2, 0.5, 1, 2, 5];
  // A line this near, in steps, to the thinnest or the thickest place would run along the rim
  const HARDLY = 0.05;
  // Height of a figure and half the width of one of its signs, mm
  const [HIGH, WIDE] = [3.2, 0.95];
  const AROUND = 16;

  const nameOf = (side) => {
    const name = shop.words.sides[side[0].toUpperCase()];
    return name[0].toUpperCase() + name.slice(1);
  };
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
    const ground = groundLens(found, side);
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

  // A figure and the room it takes; `u` and `v` are its middle.
  const figure = (u, v, text, name = "") => ({ u, v, text, name, half: WIDE * text.length });
  const meet = (a, b) => Math.abs(a.u - b.u) < a.half + b.half && Math.abs(a.v - b.v) < HIGH;

  // What must be there: the center, and the thickest and thinnest place of the rim, each with its figure inside the lens.
  function spotsOf(net) {
    const text = mm(net.lens.center);
    const found = [figure(WIDE * text.length + 1, 2.4, text, " strong")];
    for (const [thick, x, y] of [net.thickest, net.thinnest]) {
      const [u, v] = [net.turn * x, -y];
      const said = mm(thick);
      const aside = (u > 0 ? -1 : 1) * (WIDE * said.length + 1.8);
      found.push(figure(u + aside, v > 0 ? v - 1.6 : v + 1.6, said, " strong"));
    }
    return found;
  }

  // The rays on which figures may stand: to the thickest and the thinnest place first, then all around.
  function raysOf(net) {
    const nearest = ([, x, y]) => {
      const last = (one) => node(net, RINGS, one);
      const off = (one) => Math.hypot(net.xs[last(one)] - x, net.ys[last(one)] - y);
      let ray = 0;
      for (let one = 1; one < net.count; one++) if (off(one) < off(ray)) ray = one;
      return ray;
    };
    const around = Array.from({ length: AROUND }, (_, i) => Math.floor((net.count * i) / AROUND));
    return [nearest(net.thickest), nearest(net.thinnest), ...around];
  }

  // A figure on each line, where there is room.
  function figuresOf(net, levels, places) {
    const found = spotsOf(net);
    const told = new Set();
    for (const ray of raysOf(net)) {
      for (let ring = 0; ring < RINGS - 1; ring++) {
        const [a, b] = [node(net, ring, ray), node(net, ring + 1, ray)];
        for (const level of levels) {
          if (told.has(level) || net.thick[a] >= level === net.thick[b] >= level) continue;
          const part = (level - net.thick[a]) / (net.thick[b] - net.thick[a]);
          const [u, v] = [net.turn * (net.xs[a] + (net.xs[b] - net.xs[a]) * part), -net.ys[a] - (net.ys[b] - net.ys[a]) * part];
          const one = figure(u, v, mm(level, places));
          if (found.some((other) => meet(one, other))) continue;
          told.add(level);
          found.push(one);
        }
      }
    }
    return found.map((one) => draw("text", { class: `map-figure${one.name}`, x: round(one.u), y: round(one.v + 1.05), "text-anchor": "middle" }, one.text));
  }

  const spot = (net, [, x, y], name) => draw("circle", { class: `spot ${name}`, cx: round(net.turn * x), cy: round(-y), r: 0.9 });

  function boxOf(net) {
    const us = net.rim.xs.map((x) => net.turn * x);
    const [left, right] = [Math.min(...us) - 2, Math.max(...us) + 2];
    const [low, high] = [Math.min(...net.rim.ys) - 2, Math.max(...net.rim.ys) + 2];
    return [left, -high, right - left, high - low].map(round).join(" ");
  }

  function drawing(net, { levels, places }) {
    const outline = `M${net.rim.xs.map((x, i) => `${round(net.turn * x)} ${round(-net.rim.ys[i])}`).join("L")}Z`;
    const made = levels.map((level) => pathsOf(loopsOf(net, level), net.turn));
    const at = shop.words.places;
    const label = say("map-label", { side: nameOf(net.side), center: mm(net.lens.center), least: mm(net.lens.edge_min),
      least_at: at[net.lens.edge_min_at], most: mm(net.lens.edge_max), most_at: at[net.lens.edge_max_at] });
    return draw("svg", { class: "drawing map", viewBox: boxOf(net), role: "img", "aria-label": label, focusable: "false" },
      draw("path", { class: "map-ground", d: outline }),
      ...made.map(([area]) => area && draw("path", { class: "map-area", d: area })),
      ...made.map(([, line], i) => line && draw("path", { class: "map-line", d: line, "data-mm": round(levels[i]) })),
      draw("path", { class: "map-rim", d: outline }),
      draw("path", { class: "center", d: "M-2.2 0h4.4M0 -2.2v4.4" }),
      spot(net, net.thickest, "most"), spot(net, net.thinnest, "least"), ...figuresOf(net, levels, places));
  }

  // The tones in a row, with the thickness where one gives way to the next.
  function scale({ levels, places }) {
    const wide = 100 / (levels.length + 1);
    const tones = levels.map((_, i) => draw("rect", { class: "map-area", x: round((i + 1) * wide), y: 0, width: round(100 - (i + 1) * wide), height: 5 }));
    const figures = levels.map((level, i) =>
      draw("text", { class: "map-figure", x: round((i + 1) * wide), y: 8.6, "text-anchor": "middle" }, mm(level, places)));
    return draw("svg", { class: "map-scale", viewBox: "-0.5 -0.5 101 10", "aria-hidden": "true", focusable: "false" },
      draw("rect", { class: "map-ground", x: 0, y: 0, width: 100, height: 5 }), ...tones, ...figures);
  }

  // The rim in eight directions from the reference point, as numbers.
  function numbers(nets) {
    const rows = [0, 45, 90, 135, 180, 225, 270, 315].map((angle) => {
      const [c, s] = [kernel.elementary.cos_deg(angle), kernel.elementary.sin_deg(angle)];
      const cells = nets.map((net) => {
        const way = kernel.section.crossing_line(net.rim, 0, 0, c, s)[1];
        return way > 0 ? mm(kernel.thickness.thickness_behind(net.made, net.back, net.lens.center, way * c, way * s)) : "\u2013";
      });
      return [shop.words.places[kernel.thickness.place(c, s)], cells];
    });
    const line = ([name, cells]) => make("tr", {}, make("th", { scope: "row" }, name), ...cells.map((cell) => make("td", { class: "num" }, cell)));
    const head = make("tr", {}, make("th", { scope: "col" }, say("map-where")),
      ...nets.map((net) => make("th", { scope: "col", class: "num" }, nameOf(net.side))));
    const center = [say("column-center"), nets.map((net) => mm(net.lens.center))];
    return make("details", { class: "map-numbers" }, make("summary", {}, say("map-numbers")),
      make("table", { class: "figures" }, make("caption", {}, say("map-caption")), make("thead", {}, head),
        make("tbody", {}, line(center), ...rows.map(line))));
  }

  // Both views of a chosen lens as pieces of work for the pauses of the page.  The last one fills both homes at once:
  // what stood there stays until then, and the page below moves once at most.
  function viewPieces(seat, home, found) {
    let sits = [];
    const nets = [];
    const drawings = [];
    let scaled = null;
    const pieces = SIDES.map((side) => () => {
      const net = netOf(found, side);
      if (net) nets.push(net);
    });
    pieces.push(() => (scaled = nets.length ? levelsOf(nets) : null));
    pieces.push(...SIDES.map((_, i) => () => nets[i] && drawings.push(drawing(nets[i], scaled))));
    pieces.push(() => (sits = book.sitting(found)));
    pieces.push(() => {
      seat.replaceChildren(...sits);
      seat.hidden = !sits.length;
      const none = SIDES.filter((side) => found.job[`has_${side}`] && found.fit[side].fault === "" && found.fit[side].edge_min <= 0)
        .map((side) => make("p", { class: "small" }, say("map-none", { side: nameOf(side), mm: mm(found.fit[side].edge_min) })));
      if (!nets.length) return home.replaceChildren(...none);
      const open = home.querySelector(".map-numbers")?.open;
      const kind = found.pack.table.kind;
      const notes = [say("map-note"), ...(kind === "progressive" || kind === "bifocal" ? [say("map-distance")] : [])];
      home.replaceChildren(make("figure", { class: "maps" }, make("div", { class: "map-pair" }, ...drawings),
        scaled.levels.length ? scale(scaled) : null, make("figcaption", {}, notes.join(" "))), ...none, numbers(nets));
      home.querySelector(".map-numbers").open = open;
    });
    return pieces;
  }

  Object.assign(book, { viewPieces });
})();
