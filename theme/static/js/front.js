// The front of a frame in one of its sizes and colorways, as the build drew it: for the drawings that are asked for late.
// SPDX-License-Identifier: AGPL-3.0-or-later
(function () {
  "use strict";

  const { putOn } = globalThis.bevelbook;

  // All colorways of a size are one drawing; frames/ID/fronts.js holds it once.  Sun lenses that have a color of their own
  // wear it; `id` is that of its gradient, which no other drawing of the page may have.
  function front(size, color, id = "shade-drawn") {
    const room = document.createElement("template");
    const { sizes, colors } = globalThis.bevelFronts;
    room.innerHTML = sizes[size.key];
    const svg = room.content.firstElementChild;
    const [paint, temples, stops] = colors[color.id];
    for (const one of svg.querySelectorAll(".front-piece")) one.setAttribute("fill", one.matches(".temple") ? temples : paint);
    for (const one of svg.querySelectorAll(".wire")) one.setAttribute("stroke", paint);
    for (const one of svg.querySelectorAll(".glass")) one.classList.toggle("sun", color.version !== "optical");
    if (color.version !== "optical") putOn(svg, stops, id);
    return svg;
  }

  // An eye as it is called where its name begins a line: by "right" or "left".
  const sideName = (side) => globalThis.bevelShop.words.sides[side[0].toUpperCase()];

  Object.assign(globalThis.bevelbook, { front, sideName });
})();
