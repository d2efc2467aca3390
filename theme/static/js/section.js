// A lens cut through its reference point, to scale, as quoting/show/cut.py draws it.
// SPDX-License-Identifier: AGPL-3.0-or-later
(function () {
  "use strict";

  const { draw, mm, say } = globalThis.bevelbook;
  const kernel = globalThis.bevelKernel;

  // The two surfaces from the temporal to the nasal edge in the nasal frame; null where there is no such lens.
  function sectionOf(found, side) {
    const lens = found.fit[side];
    if (!found.job[`has_${side}`] || lens.fault !== "") return null;
    const { frame, package: pack } = found.job;
    const eye = kernel.lens.nasal(found.job[side], side === "left");
    const rim = kernel.thickness.rim_around(frame.xs, frame.ys, lens.decentration_in, lens.decentration_up);
    const plain = kernel.thickness.grind(eye.sphere, eye.cylinder, eye.axis, lens.front, pack.conic, pack.index);
    const made = kernel.thickness.with_prism(plain, eye.prism_in, eye.prism_up);
    const [xs, fronts, backs] = kernel.section.section(made, rim, lens.center);
    return xs[0] < xs[xs.length - 1] ? { xs, fronts, backs, center: lens.center } : null;
  }

  const number = (value) => String(Math.round(value * 100) / 100);

  function outlineOf(cut, turn) {
    const front = cut.xs.map((x, i) => [turn * x, -cut.fronts[i]]);
    const back = cut.xs.map((x, i) => [turn * x, -cut.backs[i]]).reverse();
    return "M" + [...front, ...back].map(([u, v]) => `${number(u)} ${number(v)}`).join("L") + "Z";
  }

  function label(cut, side) {
    const last = cut.xs.length - 1;
    return say("section-label", {
      side: side === "right" ? "Right" : "Left",
      center: mm(cut.center),
      nasal: mm(cut.backs[last] - cut.fronts[last]),
      temporal: mm(cut.backs[0] - cut.fronts[0]),
    });
  }

  // Both lenses of one offer beside each other, the right one at the observer's left; all rows to one scale.
  function sections(found) {
    const parts = [];
    const half = found.size.a / 2 + 6;
    for (const [side, turn] of [["right", 1], ["left", -1]]) {
      const cut = sectionOf(found, side);
      if (!cut) continue;
      const shift = (side === "right" ? -1 : 1) * half;
      const path = draw("path", { d: outlineOf(cut, turn), class: "cut", transform: `translate(${number(shift)} 0)` });
      parts.push(draw("g", {}, draw("title", {}, label(cut, side)), path));
    }
    if (!parts.length) return null;
    const box = `${number(-2 * half)} -16 ${number(4 * half)} 18`;
    return draw("svg", { viewBox: box, class: "drawing slim", role: "img", focusable: "false" }, ...parts);
  }

  // Sections of several lenses laid over each other, front vertex on front vertex.
  function overlaid(many, side) {
    const cuts = many.map((found) => sectionOf(found, side));
    const turn = side === "left" ? -1 : 1;
    const paths = cuts.map((cut, i) => cut && draw("path", { d: outlineOf(cut, turn), class: `cut over over-${i}` }));
    if (!paths.some(Boolean)) return null;
    const names = cuts.map((cut, i) => cut && `${many[i].pack.name}: ${label(cut, side)}`).filter(Boolean);
    const half = many[0].size.a / 2 + 4;
    const box = `${number(-half)} -18 ${number(2 * half)} 20`;
    return draw("svg", { viewBox: box, class: "drawing section", role: "img" },
      draw("title", {}, names.join("; ")), ...paths.filter(Boolean));
  }

  Object.assign(globalThis.bevelbook, { sections, overlaid });
})();
