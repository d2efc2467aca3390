// A lens cut through its reference point, to scale, as quoting/show/cut.py draws it.
// SPDX-License-Identifier: AGPL-3.0-or-later
(function () {
  "use strict";

  const { shop, make, draw, mm, power, say } = globalThis.bevelbook;
  const kernel = globalThis.bevelKernel;

  // One lens with its surfaces and its rim, as the engine ground it; null where there is no such lens.
  function groundLens(found, side) {
    const lens = found.fit[side];
    if (!found.job[`has_${side}`] || lens.fault !== "") return null;
    const { frame, package: pack } = found.job;
    const eye = kernel.lens.nasal(found.job[side], side === "left");
    const rim = kernel.thickness.rim_around(frame.xs, frame.ys, lens.decentration_in, lens.decentration_up);
    const plain = kernel.thickness.grind(eye.sphere, eye.cylinder, eye.axis, lens.front, pack.conic, pack.index);
    return { lens, rim, made: kernel.thickness.with_prism(plain, eye.prism_in, eye.prism_up) };
  }

  // The two surfaces from the temporal to the nasal edge in the nasal frame; null where there is no such lens.
  function sectionOf(found, side) {
    const ground = groundLens(found, side);
    if (!ground) return null;
    const { lens, rim, made } = ground;
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
    return say(`section-${side}`, {
      center: mm(cut.center),
      nasal: mm(cut.backs[last] - cut.fronts[last]),
      temporal: mm(cut.backs[0] - cut.fronts[0]),
    });
  }

  // Both lenses of one offer beside each other, the right one at the observer's left; all rows to one scale.
  function sections(found) {
    const parts = [];
    const names = [];
    const half = found.size.a / 2 + 8;
    for (const [side, turn] of [["right", 1], ["left", -1]]) {
      const cut = sectionOf(found, side);
      if (!cut) continue;
      const shift = (side === "right" ? -1 : 1) * half;
      const path = draw("path", { d: outlineOf(cut, turn), class: "cut", transform: `translate(${number(shift)} 0)` });
      names.push(label(cut, side));
      parts.push(path);
    }
    if (!parts.length) return null;
    const box = `${number(-2 * half)} -16 ${number(4 * half)} 18`;
    return draw("svg", { viewBox: box, class: "drawing slim", role: "img", "aria-label": names.join("; "), focusable: "false" }, ...parts);
  }

  // The powers that fit as a bar from the shop's weakest to its strongest, with a stroke for each of the two eyes.
  const lows = shop.packages.flatMap((pack) => pack.table.ranges.map((range) => range.low));
  const highs = shop.packages.flatMap((pack) => pack.table.ranges.map((range) => range.high));
  const [LOW, HIGH] = [Math.min(...lows), Math.max(...highs)];
  const place = (sphere) => number(((Math.min(HIGH, Math.max(LOW, sphere)) - LOW) / (HIGH - LOW)) * 100);

  function rangeBar(found) {
    const spans = kernel.ranges.ranges_that_fit(found.job);
    const fits = spans.filter((span) => span.verdict === "fits");
    const told = fits.length ? fits : spans;
    const words = told.map((span) => (span.low === span.high ? power(span.low) : `${power(span.low)} … ${power(span.high)}`));
    const text = words.length ? words.join(shop.decimal === "," ? "; " : ", ") : say("range-none");
    const bars = [...spans].reverse().map((span) => draw("line", {
      class: `range-${span.verdict}`, x1: place(span.low), x2: place(span.high + 0.001), y1: 6, y2: 6 }));
    const eyes = ["right", "left"].filter((side) => found.job[`has_${side}`]).map((side) =>
      draw("line", { class: "range-eye", x1: place(found.job[side].sphere), x2: place(found.job[side].sphere), y1: 1, y2: 11 }));
    const svg = draw("svg", { viewBox: "-2 0 104 12", class: "range", "aria-hidden": "true", focusable: "false" },
      draw("line", { class: "range-all", x1: 0, x2: 100, y1: 6, y2: 6 }),
      draw("line", { class: "range-zero", x1: place(0), x2: place(0), y1: 3, y2: 9 }), ...bars, ...eyes);
    return [svg, make("small", {}, text)];
  }

  Object.assign(globalThis.bevelbook, { sections, sectionOf, outlineOf, sectionLabel: label, rangeBar, groundLens });
})();
