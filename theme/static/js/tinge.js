// What a tint does to a lens, to a front that wears it and to the street behind it, by the kernel of light.
// Asked for where a tint is shown; data/light.js comes before it.  A mix stands in an address as tint=brown~2+gray~1,75
// or, fading, with the light taken below and where it fades: tint=brown~2,75,10,20,80; one of the tint book by its id.
// SPDX-License-Identifier: AGPL-3.0-or-later
(function () {
  "use strict";

  const book = globalThis.bevelbook;
  const kernel = globalThis.bevelKernel;
  const { draw, fill, fixed, local } = book;
  const { curves, lenses, dyes, mirrors, mixes, limits, words } = globalThis.bevelLight;
  const LAST = 10;
  const STOPS = Array.from({ length: LAST + 1 }, (_, n) => n / LAST);
  const MOST = 99;
  const MOST_DYES = 6; // as many as a quote has room for

  const curve = (number) => (number < 0 ? kernel.spectrum.flat(1) : curves[number]);
  const surface = (number, bare) => (number < 0 ? kernel.spectrum.flat(bare) : curves[number]);
  const say = (key, values = {}) => fill(words.page[key], values);
  const percent = (value) => local(fixed(value, 1));

  function glassOf(lens, state, mirror) {
    const over = mirrors.find((one) => one.id === mirror);
    return {
      internal: kernel.spectrum.product([curve(lens.inside), curve(lens.states[state])]),
      front: over ? curve(over.curve) : surface(lens.front, lens.bare),
      back: surface(lens.back, lens.bare),
    };
  }

  function tintOf(mix) {
    if (!mix) return { dyes: [], parts: [], top: 0, bottom: 0, fade_from: 0, fade_to: 1 };
    const parts = Object.entries(mix.parts);
    return {
      dyes: parts.map(([id]) => curves[dyes.find((one) => one.id === id).curve]),
      parts: parts.map(([, part]) => part),
      top: mix.top,
      bottom: mix.bottom,
      fade_from: mix.from / 100,
      fade_to: mix.to / 100,
    };
  }

  const fades = (mix) => Boolean(mix) && mix.top !== mix.bottom;
  const seen = (glass, mix, heights) => kernel.filters.filters(glass, tintOf(mix), heights, limits[0], limits[1]);
  const states = (lens) => ["clear", ...Object.keys(lens.states).filter((name) => name !== "clear")];
  const stateText = (state) => (state === "clear" ? say("state-clear") : say("state-dark", { degrees: state }));
  const hex = (color) => `#${color.map((one) => Math.floor(255 * one + 0.5).toString(16).padStart(2, "0")).join("")}`;
  const groundColor = (ground) => (ground === "skin" ? hex(kernel.colors.srgb(kernel.colors.xyz(kernel.filters.skin()))) : "#ffffff");

  // Why a lens does not take a tint or a mirror: in words, or nothing.
  function refused(lens, mix, mirror = "") {
    const mirrored = mirror && !lens.mirror ? words.refused["no-mirror"] : "";
    if (!mix) return mirrored;
    const deepest = Math.max(mix.top, mix.bottom);
    if (deepest > lens.depth) return fill(words.refused["too-deep"], { material: lens.material, most: lens.depth });
    if (lens.over) return words.refused["over-filter"];
    return deepest > lens.coat ? words.refused["under-coat"] : mirrored;
  }

  // Stops from the top of the box to its lowest point, as the lens looks on a ground.
  function stopsOf(glass, mix, ground) {
    const heights = fades(mix) ? STOPS : [0];
    const found = seen(glass, mix, heights).map((one) => hex(ground === "skin" ? one.on_skin : one.on_white));
    return heights.map((at, n) => draw("stop", { offset: at, "stop-color": found[n] }));
  }

  // The paint of a lens of the shop with a mix (null: no dye), for `putOn`: [height, color, opacity] from its top down.
  // Right over white and over black; quoting/show/lens_paint.py makes the same.
  function paint(lens, mix, state = "clear", mirror = "") {
    const heights = fades(mix) ? STOPS : [0];
    const found = kernel.lens_paint.lens_paint(glassOf(lens, state, mirror), tintOf(mix), heights);
    return found.map((one, n) => [heights[n], hex(one.slice(0, 3)), Math.floor(1000 * one[3] + 0.5) / 1000]);
  }

  // The same of a lens by its id, clear where it darkens; null where it does not take the mix, or is not stated.
  function paintTaken(id, mix, mirror) {
    const lens = lenses.find((one) => one.id === id);
    return lens.stated && !refused(lens, mix) ? paint(lens, mix, "clear", mirror) : null;
  }

  // A front with clear lenses puts these on: a ground behind, a gradient in the lenses.
  function wear(svg, glass, mix, ground, id) {
    const [left, top, wide, high] = svg.getAttribute("viewBox").split(" ");
    const shade = svg.querySelector("linearGradient") ?? draw("linearGradient", { x1: 0, y1: 0, x2: 0, y2: 1 });
    shade.setAttribute("id", id);
    shade.replaceChildren(...stopsOf(glass, mix, ground));
    const behind = svg.querySelector(".behind") ?? draw("rect", { class: "behind", x: left, y: top, width: wide, height: high, stroke: "none" });
    behind.setAttribute("fill", groundColor(ground));
    svg.prepend(shade, behind);
    for (const lens of svg.querySelectorAll(".glass, .tint")) {
      lens.setAttribute("class", "tint");
      lens.setAttribute("fill", `url(#${id})`);
      lens.removeAttribute("fill-opacity");
    }
  }

  // The street through one place of the lens.
  function recolor(svg, glass, mix, height) {
    const [layer] = kernel.tinting.dye_layers(tintOf(mix), [height]);
    const colors = kernel.scene.scene(kernel.coated.transmitted(glass, layer)).map(hex);
    for (const piece of svg.querySelectorAll("[data-part]")) piece.setAttribute("fill", colors[piece.dataset.part]);
  }

  // What follows, in sentences: of the darkest place of each state.
  function told(lens, mix, mirror) {
    const darkest = (state) => seen(glassOf(lens, state, mirror), mix, [0, 0.5, 1]).reduce((a, b) => (b.percent < a.percent ? b : a));
    const dark = states(lens).slice(1);
    const found = kernel.consequences.consequences(darkest("clear"), dark.map(darkest), dark.map(Number), limits[0], lens.inside >= 0);
    return found.map((one) => fill(words.told[one.code], { percent: percent(one.percent) }));
  }

  function toText(mix) {
    if (mix.id) return mix.id;
    const parts = Object.entries(mix.parts).map(([id, part]) => `${id}~${part}`).join("+");
    const ends = fades(mix) ? [mix.top, mix.bottom, mix.from, mix.to] : [mix.top];
    return [parts, ...ends].join(",");
  }

  // A mix from an address; null for what is none, and nothing of that is guessed.
  function fromText(text) {
    const known = mixes.find((one) => one.id === text);
    if (known || !text) return known ?? null;
    const [recipe, ...ends] = decodeURIComponent(text).split(",");
    const parts = {};
    for (const piece of recipe.split("+")) {
      const [id, part] = piece.split("~");
      const share = Math.round(Number(part) * 100) / 100; // as a quote keeps it
      if (!dyes.some((one) => one.id === id) || !(share > 0 && share <= 1000)) return null;
      parts[id] = Math.round(((parts[id] ?? 0) + share) * 100) / 100;
    }
    const [top, bottom = top, from = 0, to = 100] = ends.map((one) => Math.round(Number(one) * 100) / 100);
    const sound = [top, bottom].every((one) => one >= 0 && one <= MOST) && from >= 0 && from < to && to <= 100;
    return sound && Math.max(top, bottom) > 0 && Object.keys(parts).length <= MOST_DYES && [1, 4].includes(ends.length) ? { id: "", name: "", parts, top, bottom, from, to } : null;
  }

  function recipe(mix) {
    const parts = Object.entries(mix.parts).map(([id, part]) => `${local(part)} ${dyes.find((one) => one.id === id).name}`).join(", ");
    return say(fades(mix) ? "recipe-fading" : "recipe", { parts, top: mix.top, bottom: mix.bottom, first: mix.from, last: mix.to });
  }

  const driving = (one) => say(one.night ? "drive-night" : one.day ? "drive-day" : "drive-never");

  Object.assign(book, { tinge: {
    say, percent, glassOf, seen, states, stateText, refused, paint, paintTaken, wear, recolor, told, toText, fromText, recipe, fades, driving, groundColor, hex,
  } });
})();
