// Up to four packages side by side, their sections laid over each other.
// SPDX-License-Identifier: AGPL-3.0-or-later
(function () {
  "use strict";

  const book = globalThis.bevelbook;
  const { make, draw, say, mm, cost, sectionOf, outlineOf, sectionLabel } = book;

  const FACTS = [
    ["column-verdict", (found) => say(`verdict-${found.fit.verdict}`)],
    ["column-price", (found) => cost(found, found.lensesCents)],
    ["quote-total", (found) => (found.fit.verdict === "no" ? "\u2013" : cost(found, found.bill.total_cents))],
    ["column-edge", (found) => (found.made ? say("edge", { mm: mm(found.thickest.edge_max) }) : "")],
    ["column-center", (found) => (found.made ? say("edge", { mm: mm(found.center) }) : "")],
    ["column-weight", (found) => (found.made ? say("grams", { grams: mm(found.weight) }) : "")],
  ];

  const number = (value) => String(Math.round(value * 100) / 100);

  // Sections of several lenses laid over each other, front vertex on front vertex.
  function overlaid(many, side) {
    const cuts = many.map((found) => sectionOf(found, side));
    const turn = side === "left" ? -1 : 1;
    const paths = cuts.map((cut, i) => cut && draw("path", { d: outlineOf(cut, turn), class: `cut over over-${i}` }));
    if (!paths.some(Boolean)) return null;
    const names = cuts.map((cut, i) => cut && `${many[i].pack.name}: ${sectionLabel(cut, side)}`).filter(Boolean);
    const half = Math.max(...cuts.filter(Boolean).flatMap((cut) => [-cut.xs[0], cut.xs[cut.xs.length - 1]])) + 3;
    const high = Math.max(...cuts.filter(Boolean).flatMap((cut) => cut.backs)) + 3;
    const box = `${number(-half)} ${number(-high)} ${number(2 * half)} ${number(high + 3)}`;
    return draw("svg", { viewBox: box, class: "drawing section", role: "img", "aria-label": names.join("; ") },
      ...paths.filter(Boolean));
  }

  function compare(home, many) {
    const head = make("tr", {}, make("td", {}), ...many.map((found, i) =>
      make("th", { scope: "col" }, make("span", { class: `key over-${i}`, "aria-hidden": "true" }), found.pack.name)));
    const lines = FACTS.map(([words, value]) =>
      make("tr", {}, make("th", { scope: "row" }, say(words)), ...many.map((found) => make("td", {}, value(found)))));
    const table = make("table", { class: "figures" }, make("thead", {}, head), make("tbody", {}, ...lines));
    const drawings = ["right", "left"].map((side) => overlaid(many, side)).filter(Boolean);
    home.replaceChildren(make("h3", {}, say("compare-title")),
      make("div", { class: "sections" }, ...drawings.map((drawing) => make("figure", {}, drawing))),
      make("div", { class: "scroll", tabindex: "0", role: "region", "aria-label": say("compare-title") }, table));
  }

  Object.assign(book, { compare });
})();
