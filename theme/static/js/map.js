// How thick the chosen lens is all over: lines of equal thickness, from the engine's own surfaces.
// Asked for late: see `later` in core.js.  Places in the nasal frame from the lens's reference point, millimeters.
// SPDX-License-Identifier: AGPL-3.0-or-later
(function () {
  "use strict";

  const book = globalThis.bevelbook;
  const { shop, make, draw, mm, say, sideName } = book;
  const { RINGS, netOf, node, loopsOf, pathsOf, levelsOf } = book.contours;
  const kernel = globalThis.bevelKernel;
  const SIDES = ["right", "left"];

  // Height of a figure and half the width of one of its signs, mm
  const [HIGH, WIDE] = [3.2, 0.95];
  // Rays on which a figure may stand where there is no room on the first ones
  const AROUND = 16;

  const round = (value) => Math.round(value * 100) / 100;

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
    const label = say("map-label", { side: sideName(net.side), center: mm(net.lens.center), least: mm(net.lens.edge_min),
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
      ...nets.map((net) => make("th", { scope: "col", class: "num" }, sideName(net.side))));
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
        .map((side) => make("p", { class: "small" }, say("map-none", { side: sideName(side), mm: mm(found.fit[side].edge_min) })));
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
