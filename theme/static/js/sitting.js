// Where a visitor's eyes sit in a frame, and what of the chosen lens sits there with them: drawn over the front.
// Asked for late: see `later` in core.js.  Every place comes from the engine's answer; millimeters, v down the page.
// SPDX-License-Identifier: AGPL-3.0-or-later
(function () {
  "use strict";

  const book = globalThis.bevelbook;
  const { make, draw, mm, say, front, sideName, putOn } = book;
  const kernel = globalThis.bevelKernel;
  const SIDES = ["right", "left"];
  const SHADE = "shade-sitting";

  // Mean width of the iris as it is seen, 11.7 mm (Ruefer et al., Cornea 2005, 24: 259; from memory); a pupil by day (practice)
  const IRIS = 5.85;
  const PUPIL = 1.8;
  // The circle within which a near reference point is drawn (our own)
  const NEAR = 4;
  const BLANK = ["blank-too-small", "blank-close"];
  const HEIGHTS = ["height-too-low", "above-too-low"];

  const round = (value) => Math.round(value * 100) / 100;
  const path = (...parts) => parts.map((part) => (typeof part === "number" ? round(part) : part)).join(" ");

  // Where one lens sits, from the middle of the bridge; null where there is no such lens.
  function sits(found, side) {
    const { job, fit, pack, ask, estimated } = found;
    const lens = fit[side];
    const designs = globalThis.bevelDesigns;
    if (!job[`has_${side}`] || lens.fault === "impossible") return null;
    const { a, b, dbl } = job.frame;
    const [pd, height] = [job.measures[`pd_${side}`], job.measures[`height_${side}`]];
    const turn = side === "right" ? -1 : 1;
    const { kind, min_height, min_above } = pack.table;
    const fitting = kernel.layout.fitting_height(kind, height);
    const told = (codes) => fit.reasons.filter((one) => codes.includes(one.code) && one.eye === side[0].toUpperCase());
    const eye = kernel.lens.nasal(job[side], side === "left");
    const inward = kernel.power.in_meridian(eye.sphere, eye.cylinder, eye.axis, 180);
    return {
      side, turn, kind, lens, pd, height, fitting, min_height, min_above, b,
      u: turn * ((a + dbl) / 2 - lens.decentration_in),
      v: -lens.decentration_up,
      pupil: b / 2 - height,
      top: b / 2 - fitting,
      low: b / 2,
      inset: kernel.layout.near_inset(pd, designs.working, inward),
      nearBelow: designs.near[pack.id] ?? 0,
      segment: designs.segments[pack.id] ?? null,
      blank: told(BLANK)[0] ?? null,
      short: told(HEIGHTS),
      guessedPd: estimated.includes("pd") && ask.pd[side] === null,
      guessedHeight: ask.height[side] === null,
    };
  }

  const guessed = (is, name) => (is ? `${name} guessed` : name);

  function eyeOf(one) {
    const name = guessed(one.guessedPd || one.guessedHeight, "iris");
    return [draw("circle", { class: name, cx: round(one.u), cy: round(one.pupil), r: IRIS }),
      draw("circle", { class: "pupil", cx: round(one.u), cy: round(one.pupil), r: PUPIL })];
  }

  function cross(u, v, arm, name) {
    return draw("path", { class: name, d: path("M", u - arm, v, "h", 2 * arm, "M", u, v - arm, "v", 2 * arm) });
  }

  // The optical center of a lens with one; a progressive has its prism reference point there.
  function centerOf(one) {
    if (one.kind === "progressive") return [draw("circle", { class: "reference", cx: round(one.u), cy: round(one.v), r: 0.7 })];
    return [draw("circle", { class: "center", cx: round(one.u), cy: round(one.v), r: 2.4 }), cross(one.u, one.v, 3.6, "center")];
  }

  function progressive(one) {
    const parts = [cross(one.u, one.top, 3, "cross")];
    if (!one.nearBelow) return parts;
    const [u, v] = [one.u - one.turn * one.inset, one.top + one.nearBelow];
    parts.push(draw("path", { class: "corridor", d: path("M", one.u, one.top, "L", u, v) }));
    parts.push(draw("circle", { class: "near", cx: round(u), cy: round(v), r: NEAR }));
    return parts;
  }

  // A flat top is a circle of the segment's width with its top cut off level; where its depth is not stated, its line alone.
  function segmentOf(one) {
    const [width, depth] = one.segment;
    const u = one.u - one.turn * one.inset;
    const up = depth - width / 2;
    const half = depth ? Math.sqrt(Math.max(0, width * width / 4 - up * up)) : width / 2;
    const line = path("M", u - half, one.top, "h", 2 * half);
    const round = (to, v) => path("A", width / 2, width / 2, 0, 0, 1, to, v);
    const arc = depth ? round(u, one.top + depth) + round(u - half, one.top) : "";
    return [draw("path", { class: "segment", d: line + arc })];
  }

  // What the design asks for above and below, where that is the reason.
  function shortOf(one) {
    const u = one.u - one.turn * 10;
    return one.short.map((reason) => {
      const way = reason.code === "height-too-low" ? 1 : -1;
      const end = one.top + way * reason.needed;
      return draw("g", {},
        draw("path", { class: "short", d: path("M", u - 2, one.top, "h", 4, "M", u, one.top, "V", end, "M", u - 2, end, "h", 4) }),
        label(u - 1.3, (one.top + end) / 2, mm(reason.needed), "wrong", true));
    });
  }

  function blankOf(one) {
    if (!one.blank) return [];
    const circle = (size, name) => draw("circle", { class: `blank ${name}`, cx: round(one.u), cy: round(one.v), r: round(size / 2) });
    return [circle(one.blank.given, ""), circle(one.blank.needed, "needed")];
  }

  function label(u, v, text, name = "", upright = false) {
    const turned = upright ? `rotate(-90 ${round(u)} ${round(v)})` : null;
    return draw("text", { x: round(u), y: round(v), class: `size ${name}`, stroke: "none", "text-anchor": "middle", transform: turned }, text);
  }

  const slant = (u, v) => path("M", u - 1.2, v + 1.2, "l", 2.4, -2.4);

  // Each half of the PD above the front, and each height beside its pupil or segment.
  function measuresOf(one, above) {
    const half = guessed(one.guessedPd, "dimension");
    const beside = one.u + one.turn * 11;
    const tall = guessed(one.guessedHeight, "dimension");
    return [
      draw("path", { class: "extension", d: path("M", 0, above - 1.5, "V", above + 4, "M", one.u, above - 1.5, "V", one.pupil - IRIS) }),
      draw("path", { class: half, d: path("M", 0, above, "H", one.u) }),
      draw("path", { class: "dimension", d: slant(0, above) + slant(one.u, above) }),
      label(one.u / 2, above - 1.3, mm(one.pd)),
      draw("path", { class: "extension", d: path("M", one.u, one.top, "H", beside + one.turn * 1.5) }),
      draw("path", { class: tall, d: path("M", beside, one.low, "V", one.top) }),
      draw("path", { class: "dimension", d: slant(beside, one.low) + slant(beside, one.top) }),
      label(beside - 1.3, (one.low + one.top) / 2, mm(one.fitting), "", true),
    ];
  }

  const boxOf = (svg) => svg.getAttribute("viewBox").split(" ").map(Number);

  // A larger window for the same drawing; its squares go on to the new edges.
  function widen(svg, least) {
    const [left, top, wide, high] = boxOf(svg);
    const [from, to] = [Math.min(top, least.top), Math.max(top + high, least.low)];
    const side = Math.max(0, least.side + left, least.side - left - wide);
    const box = [left - side, from, wide + 2 * side, to - from].map(round);
    svg.setAttribute("viewBox", box.join(" "));
    svg.setAttribute("width", `${box[2]}mm`);
    svg.setAttribute("height", `${box[3]}mm`);
    const lines = [];
    for (let u = Math.ceil(box[0] / 10) * 10; u <= box[0] + box[2]; u += 10) lines.push(path("M", u, from, "V", to));
    for (let v = Math.ceil(from / 10) * 10; v <= to; v += 10) lines.push(path("M", box[0], v, "H", box[0] + box[2]));
    svg.querySelector(".grid").setAttribute("d", lines.join(""));
  }

  function drawn(found, eyes) {
    const svg = front(found.size, { ...found.color, version: "optical" });
    const top = boxOf(svg)[1];
    const parts = eyes.map((one) => draw("g", { class: `eye ${one.side}` }, ...blankOf(one), ...eyeOf(one), ...centerOf(one),
      ...(one.kind === "progressive" ? progressive(one) : one.segment ? segmentOf(one) : []),
      ...measuresOf(one, top - 1), ...shortOf(one)));
    const blanks = eyes.filter((one) => one.blank).map((one) => ({ u: Math.abs(one.u), v: one.v, r: one.blank.needed / 2 + 1.5 }));
    widen(svg, {
      top: Math.min(top - 8, ...blanks.map((one) => one.v - one.r)),
      low: Math.max(0, ...blanks.map((one) => one.v + one.r)),
      side: Math.max(0, ...blanks.map((one) => one.u + one.r)),
    });
    svg.append(...parts);
    svg.classList.add("sitting-front");
    svg.setAttribute("aria-label", say("sitting-label", { frame: found.frame.name, size: found.size.label, color: found.color.name }));
    return svg;
  }

  // A small sample of a mark, for the table that tells what each means.
  function sample(...parts) {
    return draw("svg", { class: "sample", viewBox: "-6 -4 12 8", "aria-hidden": "true", focusable: "false" }, ...parts);
  }

  const estimated = (is) => (is ? [make("br"), make("small", {}, say("sitting-estimated"))] : []);
  const toward = (value) => say(value < 0 ? "sitting-out" : "sitting-in", { mm: mm(Math.abs(value)) });

  // Rows of the table: the mark, what it is, and its value for one eye; those of which no eye has a value are left out.
  const ROWS = [
    [() => sample(draw("circle", { class: "iris", r: 3.4 }), draw("circle", { class: "pupil", r: 1.3 })), "sitting-pd",
      (one) => [mm(one.pd), ...estimated(one.guessedPd)]],
    [null, "sitting-height", (one) => [mm(one.height), ...estimated(one.guessedHeight)]],
    [() => sample(draw("circle", { class: "center", r: 1.8 }), cross(0, 0, 2.8, "center")), "sitting-center",
      (one) => (one.kind === "progressive" ? null : [mm(one.lens.height), make("br"), toward(one.lens.decentration_in)])],
    [() => sample(cross(0, 0, 3, "cross")), "sitting-cross",
      (one) => (one.kind === "progressive" ? [mm(one.fitting), make("br"), toward(one.lens.decentration_in)] : null)],
    [() => sample(draw("circle", { class: "reference", r: 0.9 })), "sitting-reference",
      (one) => (one.kind === "progressive" ? [mm(one.lens.height)] : null)],
    [() => sample(draw("circle", { class: "near", r: 3 })), "sitting-near",
      (one) => (one.nearBelow ? [mm(one.fitting - one.nearBelow), make("br"), toward(one.lens.decentration_in + one.inset)] : null)],
    [() => sample(draw("path", { class: "segment", d: "M-4 -1.5h8A4.4 4.4 0 0 1 -4 -1.5" })), "sitting-segment",
      (one) => (one.segment ? [mm(one.fitting), make("br"), toward(one.lens.decentration_in + one.inset)] : null)],
    [() => sample(draw("path", { class: "short", d: "M0 -3v6M-2 -3h4M-2 3h4" })), "sitting-short",
      (one) => (one.short.length ? [one.short.map((reason) => say(reason.code === "height-too-low" ? "sitting-below" : "sitting-above",
        { needed: mm(reason.needed), given: mm(reason.given) })).join("; ")] : null)],
    [() => sample(draw("circle", { class: "blank needed", r: 3.2 })), "sitting-needed",
      (one) => (one.lens.blank_largest ? [mm(one.blank?.needed ?? one.lens.blank_exact)] : null), (one) => one.blank],
    [() => sample(draw("circle", { class: "blank", r: 3.2 })), "sitting-blank",
      (one) => (one.lens.blank_largest ? [mm(one.lens.blank_largest)] : null), (one) => one.blank],
  ];

  function tableOf(eyes) {
    const head = make("tr", {}, make("th", { scope: "col" }, say("sitting-what")),
      ...eyes.map((one) => make("th", { scope: "col", class: "num" }, sideName(one.side))));
    const rows = ROWS.map(([mark, words, value, drawnIf]) => {
      const values = eyes.map(value);
      if (values.every((one) => one === null)) return null;
      const key = mark && (!drawnIf || eyes.some(drawnIf)) ? mark() : null;
      const name = make("th", { scope: "row" }, make("span", { class: "marked" }, key, make("span", {}, say(words))));
      return make("tr", {}, name, ...values.map((parts) => make("td", { class: "num" }, ...(parts ?? ["\u2013"]))));
    });
    return make("table", { class: "figures marks" }, make("caption", {}, say("sitting-caption")),
      make("thead", {}, head), make("tbody", {}, ...rows));
  }

  // The lens as it was chosen, with its own mix and mirror; or with the tint that the fronts of the page wear; or, where it has
  // a color by itself, in that.  Marks over it have a rim in the color of what fronts lie on.
  const shown = new WeakMap();
  const ownOf = (pack) => globalThis.bevelDesigns.worn[pack.id] ?? [[], ""];
  function dressSitting(figure) {
    const { pack, mix, mirror } = shown.get(figure);
    const svg = figure.querySelector(".sitting-front");
    const stops = mix || mirror ? book.tinge?.paintTaken(pack.id, mix ?? null, mirror?.id ?? "") : null;
    const own = ownOf(pack)[0];
    const dressed = !stops && Boolean(book.dress?.(svg, SHADE, pack.id, own));
    if (!dressed) putOn(svg, stops ?? own, SHADE);
    const worn = dressed || Boolean((stops ?? own).length);
    for (const one of svg.querySelectorAll(".rim")) one.remove();
    for (const eye of worn ? svg.querySelectorAll(".eye") : []) {
      const rim = eye.cloneNode(true);
      rim.setAttribute("class", "rim");
      eye.before(rim);
    }
    for (const words of figure.querySelectorAll(".sitting-clear")) words.hidden = worn;
    for (const words of figure.querySelectorAll(".sitting-own")) words.hidden = dressed || Boolean(stops);
  }

  // The figure and its table, for one offer.
  function sitting(found) {
    const eyes = SIDES.map((side) => sits(found, side)).filter(Boolean);
    if (!eyes.length) return [];
    const clear = found.color.version !== "optical" ? make("span", { class: "sitting-clear" }, ` ${say("sitting-clear")}`) : "";
    const own = make("span", { class: "sitting-own" }, ` ${ownOf(found.pack)[1]}`);
    const notes = [say("sitting-note")];
    if (eyes.some((one) => one.kind === "progressive" && !one.nearBelow)) notes.push(say("sitting-no-near"));
    if (eyes.some((one) => one.guessedPd || one.guessedHeight)) notes.push(say("sitting-dashed"));
    const figure = make("figure", { class: "sitting" }, drawn(found, eyes), make("figcaption", {}, notes.join(" "), clear, own));
    shown.set(figure, found);
    dressSitting(figure);
    return [figure, tableOf(eyes)];
  }

  Object.assign(book, { sitting, dressSitting });
})();
