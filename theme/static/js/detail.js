// What is told of the chosen lens: reasons, both lenses, the itemized bill, cautions, and drawings that come in pauses.
// SPDX-License-Identifier: AGPL-3.0-or-later
(function () {
  "use strict";

  const book = globalThis.bevelbook;
  const { shop, make, say, mm, money, inPauses } = book;
  const seat = make("div", { class: "seat" });
  const thickness = make("div", { class: "thickness" });

  // No line ends between a number and its unit.
  const joined = (text) => text.replace(/(\d) (?=(mm|g)\b)/g, "$1\u00a0");

  function lensLine(found, side) {
    const lens = found.fit[side];
    if (!found.job[`has_${side}`]) return null;
    const { places } = shop.words;
    const text = lens.fault ? shop.words.faults[lens.fault] : say("lens-made", {
      least: mm(lens.edge_min), least_at: places[lens.edge_min_at], most: mm(lens.edge_max), most_at: places[lens.edge_max_at],
      center: mm(lens.center), weight: mm(lens.weight),
    });
    return make("li", {}, make("b", {}, say(`short-${side}`)), " ", joined(text));
  }

  function billTable(found) {
    const lines = found.bill.lines.map((line) => make("tr", {},
      make("th", { scope: "row" }, book.lineText(line, found)), make("td", { class: "num" }, money(line.cents))));
    const sum = make("tr", { class: "sum" },
      make("th", { scope: "row" }, say("quote-total")), make("td", { class: "num" }, money(found.bill.total_cents)));
    const inside = found.bill.tax_included_cents;
    const tax = inside ? make("p", { class: "small" }, say("quote-tax", { amount: money(inside) })) : "";
    return [make("table", { class: "bill" }, make("tbody", {}, ...lines, sum)), tax];
  }

  function weightLine(found) {
    const lenses = mm(found.weight);
    const whole = mm(found.weight + found.size.weight);
    return found.size.weight ? say("quote-weight", { lenses, whole }) : say("quote-weight-lenses", { lenses });
  }

  // What is to be read beside this lens, for these eyes.
  function notes(found) {
    const strong = found.lenses.some((lens) => lens.strongest >= shop.strong_plus);
    const tinted = found.ask.wishes?.tint_depth > 0;
    const words = ["quote", ...found.pack.notes, ...(tinted ? ["tinted"] : []), ...(strong ? ["strong-plus"] : [])];
    return Object.entries(shop.cautions).flatMap(([word, sentences]) => (words.includes(word) ? sentences : []));
  }

  // `offers`: all packages in this size; `still`: whether this is the answer that is asked for; `change`: takes options.
  function detail(home, found, offers, still, change) {
    const focus = document.activeElement.id;
    const reasons = book.toldOnce(found.fit.reasons).map((one) =>
      make("li", { class: one.verdict }, book.sentence(one, found.pack, "customer")));
    const misfit = found.fit.verdict === "no"; // nobody is to pay for what cannot be made
    const share = make("p", { class: "share" });
    const helps = make("div", {});
    if (found.fit.verdict !== "fits") {
      book.withHelpers(() => helps.replaceChildren(book.remedyList(found, book.remedies(found, offers), book.deeds.go)));
    }
    const drawing = found.made ? book.sections(found) : null;
    const estimates = found.estimated.map((name) => shop.words.estimates[name]);
    look(found, still);
    const told = make("div", {},
      make("p", { class: `verdict ${found.fit.verdict}` }, `${book.SIGNS[found.fit.verdict]} ${say(`verdict-${found.fit.verdict}`)}`),
      reasons.length ? make("ul", { class: "reasons" }, ...reasons) : "",
      helps,
      drawing ? make("figure", { class: "both-sections" }, drawing) : "",
      make("ul", { class: "lenses" }, ...["right", "left"].map((side) => lensLine(found, side))),
      found.made ? make("p", {}, joined(weightLine(found))) : "",
      book.optionParts(found, change),
      book.tintTold(found),
      ...(misfit ? [make("p", {}, say("quote-misfit"))] : found.bill.priced ? billTable(found) : [make("p", {}, say("quote-none"))]),
      misfit ? "" : book.versionSum(found),
      share,
      make("ul", { class: "small columns notes" }, ...notes(found).map((text) => make("li", {}, text))),
      make("p", { class: "small" }, say("estimated", { what: estimates.join("; ") })),
      make("p", { class: "small" }, `${say("quote-estimate")} ${say("quote-list", { version: shop.list.version })}`),
    );
    home.replaceChildren(make("h3", {}, `${say("quote-title")}: ${found.pack.name}`),
      make("div", { class: "beside" }, told, make("div", { class: "views" }, seat, thickness)));
    if (focus.startsWith("with-")) document.getElementById(focus)?.focus({ preventScroll: true });
    book.share(found, share, home);
  }

  // Where the eyes sit and how thick the lens is: scripts of their own, drawn in pauses over what was drawn before.
  async function look(found, still) {
    try {
      await Promise.all([book.forDrawing(), book.later("views.js")]);
    } catch {
      if (still()) seat.replaceChildren(make("p", { class: "small" }, say("views-fault")));
      return;
    }
    inPauses(book.viewPieces(seat, thickness, found), still, 100);
  }

  Object.assign(book, { detail });
})();
