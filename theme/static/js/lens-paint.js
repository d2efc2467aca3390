// Puts paint on the lenses of a drawn front: stops of height, color and opacity, as quoting/show/lens_paint.py makes them.
// tinge.paint works them out; frames/ID/fronts.js has those of colorways that are sold with a tint.
// SPDX-License-Identifier: AGPL-3.0-or-later
(function () {
  "use strict";

  const { draw } = globalThis.bevelbook;
  const NAMES = ["class", "fill", "fill-opacity"];

  // Without stops the lenses are as they were drawn.  No other drawing of the page may have that id.
  function putOn(svg, stops, id) {
    svg.querySelector(".paint")?.remove();
    if (stops?.length > 1) {
      svg.prepend(draw("linearGradient", { class: "paint", id, x1: 0, y1: 0, x2: 0, y2: 1 },
        ...stops.map(([at, color, opacity]) => draw("stop", { offset: at, "stop-color": color, "stop-opacity": opacity }))));
    }
    const all = stops?.length === 1 ? { class: "tint", fill: stops[0][1], "fill-opacity": stops[0][2] } : { class: "tint", fill: `url(#${id})`, "fill-opacity": 1 };
    for (const lens of svg.querySelectorAll(".glass, .tint")) {
      lens.dataset.clear ??= JSON.stringify(NAMES.map((name) => [name, lens.getAttribute(name)]));
      for (const [name, value] of stops?.length ? Object.entries(all) : JSON.parse(lens.dataset.clear)) {
        if (value === null) lens.removeAttribute(name);
        else lens.setAttribute(name, value);
      }
    }
  }

  Object.assign(globalThis.bevelbook, { putOn });
})();
