// The rows of the live lens board: made once and filled again.  What they do is told by the board.
// SPDX-License-Identifier: AGPL-3.0-or-later
(function () {
  "use strict";

  const book = globalThis.bevelbook;
  const { shop, make, say, mm } = book;
  const SIGNS = { fits: "\u2713", caution: "!", no: "\u00d7" };
  const rows = new Map();
  const deeds = {};

  // Which rows are in sight; what is out of it is drawn in the pauses.
  const sight = new Set();
  const watcher = new IntersectionObserver((seen) => {
    for (const { target, isIntersecting } of seen) sight[isIntersecting ? "add" : "delete"](target);
  });

  // A clear lens needs no word about its filter category.
  function categoryText({ categories: [first, last = first] }) {
    if (!last) return "";
    return first === last ? say("category", { category: first }) : say("categories", { first, last });
  }

  // Rows are made once and filled again, so that what has the focus keeps it and nothing jumps.
  function rowOf(pack) {
    if (rows.has(pack.id)) return rows.get(pack.id);
    const choose = make("input", {
      type: "radio", name: "chosen", value: pack.id, "aria-label": say("choose", { name: pack.name }),
    });
    const compare = make("input", {
      type: "checkbox", value: pack.id, "aria-label": say("compare", { name: pack.name }),
    });
    const cells = Object.fromEntries(
      ["verdict", "price", "edge", "center", "weight", "range", "section"].map((name) => [name, make("td", { class: `is-${name}` })]),
    );
    const link = make("a", { href: `../../lenses/${pack.id}/index.html` }, pack.name);
    const light = pack.light === "clear" ? "" : shop.words.lights[pack.light];
    const made = [pack.material, light, categoryText(pack)].filter(Boolean).join(", ");
    const name = make("span", {}, link, make("small", {}, made));
    const head = make("th", { scope: "row", class: "first" },
      make("span", { class: "named" }, make("label", { class: "pick" }, choose), name));
    const row = make("tr", { "data-package": pack.id }, head, ...Object.values(cells),
      make("td", { class: "is-compare" }, make("label", { class: "pick" }, compare)));
    choose.addEventListener("change", () => deeds.pick(pack.id));
    compare.addEventListener("change", () => deeds.compare(pack.id, compare));
    const found = { row, cells, choose, compare };
    rows.set(pack.id, found);
    watcher.observe(row);
    return found;
  }

  function verdictParts(found) {
    const { verdict } = found.fit;
    const told = book.toldOnce(found.fit.reasons).map((one) => book.sentence(one, found.pack, "customer"));
    const sign = make("span", { class: "mark", "aria-hidden": "true" }, SIGNS[verdict]);
    const word = make("span", { class: "word" }, say(`verdict-${verdict}`));
    if (!told.length) return [sign, word];
    const [first, ...rest] = told.map((text) => make("span", { class: "why" }, text));
    if (verdict !== "no" && !rest.length) return [sign, word, first];
    const title = verdict === "no" ? say("remedy-title") : say("more-reasons", { count: rest.length });
    const details = make("details", { class: "whys" }, make("summary", {}, title), ...rest);
    if (found.helps) book.rowHelp(found, deeds.offers(), details, deeds.go);
    return [sign, word, first, details];
  }

  // What would make it fit comes in scripts of its own once something does not; without them the reasons stand alone.
  const withHelpers = (work) =>
    book.later("../../data/remedies.js").then(() => book.later("remedy.js")).then(work, () => undefined);

  // What a cell says already is left alone: a board is laid out for what changed, and for nothing else.
  function put(cell, text, parts = () => [text]) {
    if (cell.said === text) return;
    cell.said = text;
    cell.replaceChildren(...parts());
  }

  function fillRow(found) {
    const { row, cells, choose, compare } = rowOf(found.pack);
    choose.checked = deeds.state.chosen === found.pack.id;
    compare.checked = deeds.state.compared.has(found.pack.id);
    if (row.found === found) return;
    row.found = found;
    const { thickest, made, fit } = found;
    if (row.className !== fit.verdict) row.className = fit.verdict;
    if (fit.reasons.length) cells.verdict.said = null; // what helps belongs to this very answer
    put(cells.verdict, fit.verdict, () => verdictParts(found));
    put(cells.price, book.cost(found, found.lensesCents), () => [make("b", { class: "price" }, cells.price.said)]);
    const edge = made ? say("edge", { mm: mm(thickest.edge_max) }) : "";
    put(cells.edge, edge + thickest.edge_max_at, () => (made ? [edge, make("small", {}, shop.words.places[thickest.edge_max_at])] : []));
    put(cells.center, made ? say("edge", { mm: mm(found.center) }) : "");
    put(cells.weight, made ? say("grams", { grams: mm(found.weight) }) : "");
  }

  function drawRow(found) {
    if (found.drawn) return;
    found.drawn = true;
    const { section } = rowOf(found.pack).cells;
    const drawing = found.made && found.lenses.length ? book.sections(found) : null;
    section.replaceChildren(...(drawing ? [drawing] : []));
  }

  Object.assign(book, { SIGNS, deeds, inSight: sight, put, rowOf, fillRow, drawRow, withHelpers });
})();
