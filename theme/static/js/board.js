// The live lens board of a frame: one row a package, answering for the visitor's own eyes.
// SPDX-License-Identifier: AGPL-3.0-or-later
(function () {
  "use strict";

  const book = globalThis.bevelbook;
  const { shop, make, say, mm, money, inPauses } = book;
  const place = document.getElementById("live");
  const block = document.getElementById("frame-data");
  if (!place || !block) return;

  const frame = JSON.parse(block.textContent);
  const SIGNS = { fits: "\u2713", caution: "!", no: "\u00d7" };
  const ORDER = { fits: 0, caution: 1, no: 2 };
  const MOST = 4;
  const state = { size: frame.sizes[0], color: frame.colors[0], chosen: null, compared: new Set(), ask: book.nothing() };
  const rows = new Map();
  let offers = [];
  const seat = make("div", { class: "seat" });
  const thickness = make("div", { class: "thickness" });

  const BY = {
    design: () => 0,
    price: (a, b) => total(a) - total(b),
    thinnest: (a, b) => thick(a) - thick(b),
    lightest: (a, b) => weight(a) - weight(b),
  };
  const FAR = 1e9;
  const total = (found) => (found.bill.priced ? found.bill.total_cents : FAR);
  const thick = (found) => (found.made ? Math.max(found.thickest.edge_max, found.center) : FAR);
  const weight = (found) => (found.made ? found.weight : FAR);
  const NEEDS = {
    impact: (pack) => pack.table.impact_resistant,
    tint: (pack) => pack.tintable,
    photochromic: (pack) => pack.light === "photochromic",
    near: (pack) => pack.table.kind === "progressive" || pack.table.kind === "bifocal",
  };

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
    choose.addEventListener("change", () => pick(pack.id));
    compare.addEventListener("change", () => compareWith(pack.id, compare));
    const found = { row, cells, choose, compare };
    rows.set(pack.id, found);
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
    if (found.helps) book.rowHelp(found, offers, details, go);
    return [sign, word, first, details];
  }

  // What would make it fit comes in scripts of its own once something does not; without them the reasons stand alone.
  const withHelpers = (work) =>
    book.later("../../data/remedies.js").then(() => book.later("remedy.js")).then(work, () => undefined);

  function go({ pack, size }) {
    if (size) document.querySelector(`input[name="live-sizes"][value="${size.key}"]`).click();
    if (pack) pick(pack.id);
    const { choose } = rowOf(pack ?? byId(state.chosen)?.pack ?? offers[0].pack);
    choose.checked = choose.value === state.chosen;
    choose.focus();
  }

  function fillRow(found) {
    const { row, cells, choose, compare } = rowOf(found.pack);
    const { lenses, made } = found;
    row.className = found.fit.verdict;
    cells.verdict.replaceChildren(...verdictParts(found));
    cells.price.replaceChildren(make("b", { class: "price" }, book.cost(found, found.lensesCents)));
    cells.edge.replaceChildren(...(made
      ? [say("edge", { mm: mm(found.thickest.edge_max) }), make("small", {}, shop.words.places[found.thickest.edge_max_at])] : []));
    cells.center.replaceChildren(made ? say("edge", { mm: mm(found.center) }) : "");
    cells.weight.replaceChildren(made ? say("grams", { grams: mm(found.weight) }) : "");
    const drawing = made && lenses.length ? book.sections(found) : null;
    cells.section.replaceChildren(...(drawing ? [drawing] : []));
    choose.checked = state.chosen === found.pack.id;
    compare.checked = state.compared.has(found.pack.id);
    return row;
  }

  const controls = {};
  const CHECKS = ["hide", ...Object.keys(NEEDS)];
  const LISTS = ["sort", "category", "driving"];
  const TOOLS = [...CHECKS, ...LISTS];
  for (const name of TOOLS) controls[name] = document.getElementById(`live-${name}`);

  // What the glasses are for is asked of the engine, so that its reason stands in the row.
  function asked() {
    const driving = controls.driving.value;
    return { ...state.ask, wishes: { driving: driving !== "", night_driving: driving === "night" } };
  }

  function wanted(found) {
    if (controls.hide.checked && found.fit.verdict === "no") return false;
    const category = controls.category.value;
    if (category && !found.pack.categories.includes(Number(category))) return false;
    return Object.entries(NEEDS).every(([name, test]) => !controls[name].checked || test(found.pack));
  }

  function bodies() {
    const shown = offers.filter(wanted);
    const by = controls.sort.value;
    if (by !== "design") {
      const sorted = shown.sort((a, b) => ORDER[a.fit.verdict] - ORDER[b.fit.verdict] || BY[by](a, b));
      return [make("tbody", {}, ...sorted.map(fillRow))];
    }
    const misfit = (group) => group.every((found) => found.fit.verdict === "no");
    const groups = new Map();
    // Of each design what fits comes first.
    for (const found of shown.sort((a, b) => misfit([a]) - misfit([b]))) {
      const key = `${found.pack.maker}/${found.pack.design}`;
      if (!groups.has(key)) groups.set(key, []);
      groups.get(key).push(found);
    }
    const cheapest = (group) => Math.min(...group.flatMap((found) => found.pack.table.prices.map((band) => band.cents)));
    const kind = (group) => shop.kinds.indexOf(group[0].pack.table.kind);
    const ordered = [...groups.values()].sort((a, b) =>
      kind(a) - kind(b) || misfit(a) - misfit(b) || cheapest(a) - cheapest(b));
    return ordered.map((group) => {
      const { design, kindText, maker } = group[0].pack;
      const title = make("span", { class: "stay" }, make("b", {}, design), " ", make("small", {}, `${kindText}, ${maker}`));
      const head = make("tr", { class: "design" }, make("th", { scope: "rowgroup", colspan: "9" }, title));
      return make("tbody", {}, head, ...group.map(fillRow));
    });
  }

  function status(shown) {
    const fits = offers.filter((found) => found.fit.verdict !== "no").length;
    const caution = offers.filter((found) => found.fit.verdict === "caution").length;
    const all = offers.length;
    const text = fits ? say("board-status", { fits, caution, all }) : say("board-none", { all });
    book.tell(controls.status, shown < all ? `${text} ${say("filter-left", { shown, all })}` : text);
  }

  const COLUMNS = ["package", "verdict", "price", "edge", "center", "weight", "range", "section", "compare"];

  function skeleton() {
    const caption = make("caption", {});
    const head = make("tr", {}, ...COLUMNS.map((name, i) =>
      make("th", { scope: "col", class: i ? `is-${name}` : "first" }, say(`column-${name}`))));
    const table = make("table", { class: "board live-board" }, caption, make("thead", {}, head));
    const region = make("div", { class: "scroll", role: "region", tabindex: "0", "aria-label": say("live-region") }, table);
    Object.assign(controls, { caption, table });
    for (const name of ["status", "sizes", "colors", "version"]) controls[name] = document.getElementById(`live-${name}`);
    document.getElementById("live-table").replaceChildren(region);
    choices("sizes", frame.sizes, (size) => size.key, (size) => size.label, (size) => (state.size = size));
    choices("colors", frame.colors, (color) => color.id, book.colorText, (color) => (state.color = color));
    for (const name of TOOLS) {
      controls[name].addEventListener("change", () => {
        if (name === "driving") answer();
        else table_();
        remember();
      });
    }
  }

  function choices(name, all, key, text, take) {
    const list = all.map((one) => {
      const box = make("input", { type: "radio", name: `live-${name}`, value: key(one) });
      box.checked = one === state.size || one === state.color;
      box.addEventListener("change", () => {
        take(one);
        answer();
        remember();
      });
      return make("label", {}, box, make("span", {}, text(one)));
    });
    controls[name].append(...list);
    controls[name].hidden = all.length < 2;
  }

  function table_() {
    const parts = bodies();
    const focus = document.activeElement;
    for (const body of [...controls.table.tBodies]) body.remove();
    controls.table.append(...parts);
    if (focus && controls.table.contains(focus)) focus.focus({ preventScroll: true });
    controls.caption.replaceChildren(say("board-caption", { frame: frame.name, size: state.size.label }));
    status(parts.reduce((count, body) => count + body.querySelectorAll("tr[data-package]").length, 0));
  }

  // What was picked stands in the address, so that the address is a link to it.
  function remember() {
    const parts = [];
    if (state.size !== frame.sizes[0]) parts.push(`size=${state.size.key}`);
    if (state.color !== frame.colors[0]) parts.push(`color=${state.color.id}`);
    if (state.chosen) parts.push(`lens=${state.chosen}`);
    if (state.compared.size) parts.push(`beside=${[...state.compared].join()}`);
    const only = CHECKS.filter((name) => controls[name].checked);
    if (only.length) parts.push(`only=${only.join()}`);
    for (const name of LISTS) if (controls[name].value !== controls[name].options[0].value) parts.push(`${name}=${controls[name].value}`);
    if (!book.isEmpty(state.ask)) book.readdress(state.ask, parts.join("&"));
  }

  function recall() {
    const said = Object.fromEntries(location.hash.replace(/^#/, "").split("&").map((part) => part.split("=", 2)));
    state.size = frame.sizes.find((size) => size.key === said.size) ?? state.size;
    state.color = frame.colors.find((color) => color.id === said.color) ?? state.color;
    const known = (id) => shop.packages.some((pack) => pack.id === id);
    state.chosen = known(said.lens) ? said.lens : null;
    state.compared = new Set((said.beside ?? "").split(",").filter(known).slice(0, MOST));
    for (const name of CHECKS) controls[name].checked = (said.only ?? "").split(",").includes(name);
    for (const name of LISTS) {
      if ([...controls[name].options].some((option) => option.value === said[name])) controls[name].value = said[name];
    }
  }

  function pick(id) {
    state.chosen = id;
    detail();
    remember();
  }

  function compareWith(id, box) {
    if (box.checked && state.compared.size >= MOST) {
      box.checked = false;
      book.tell(controls.status, say("compare-full"));
      return;
    }
    if (box.checked) state.compared.add(id);
    else state.compared.delete(id);
    comparison();
    remember();
  }

  const byId = (id) => offers.find((found) => found.pack.id === id);

  // What was picked stays in sight at the foot of the window, for the board is long.
  const bar = () => (book.bar || state.chosen || state.compared.size) && book.later("share.js").then(() =>
    book.bar(byId(state.chosen), [...state.compared].filter(byId)));

  function comparison() {
    const many = [...state.compared].map(byId).filter(Boolean);
    const home = document.getElementById("live-compare");
    home.hidden = many.length < 2;
    bar();
    if (many.length < 2) return home.replaceChildren();
    return book.later("compare.js").then(() => book.compare(home, many));
  }

  function lensLine(found, side) {
    const lens = found.fit[side];
    if (!found.job[`has_${side}`]) return null;
    const { places } = shop.words;
    const text = lens.fault ? shop.words.faults[lens.fault] : say("lens-made", {
      least: mm(lens.edge_min), least_at: places[lens.edge_min_at], most: mm(lens.edge_max), most_at: places[lens.edge_max_at],
      center: mm(lens.center), weight: mm(lens.weight),
    });
    return make("li", {}, make("b", {}, say(`short-${side}`)), " ", text);
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
    const words = ["quote", ...found.pack.notes, ...(strong ? ["strong-plus"] : [])];
    return Object.entries(shop.cautions).flatMap(([word, sentences]) => (words.includes(word) ? sentences : []));
  }

  function detail() {
    const home = document.getElementById("live-quote");
    const found = state.chosen && byId(state.chosen);
    home.hidden = !found;
    bar();
    document.documentElement.classList.toggle("picked", Boolean(found)); // paper then holds this lens alone
    if (!found) return home.replaceChildren();
    const reasons = book.toldOnce(found.fit.reasons).map((one) =>
      make("li", { class: one.verdict }, book.sentence(one, found.pack, "customer")));
    const share = make("p", { class: "share" });
    const helps = make("div", {});
    if (found.fit.verdict !== "fits") {
      withHelpers(() => helps.replaceChildren(book.remedyList(found, book.remedies(found, offers), go)));
    }
    const drawing = found.made ? book.sections(found) : null;
    const estimates = found.estimated.map((name) => shop.words.estimates[name]);
    look(found);
    const told = make("div", {},
      make("p", { class: `verdict ${found.fit.verdict}` }, `${SIGNS[found.fit.verdict]} ${say(`verdict-${found.fit.verdict}`)}`),
      reasons.length ? make("ul", { class: "reasons" }, ...reasons) : "",
      helps,
      drawing ? make("figure", { class: "both-sections" }, drawing) : "",
      make("ul", { class: "lenses" }, ...["right", "left"].map((side) => lensLine(found, side))),
      found.made ? make("p", {}, weightLine(found)) : "",
      ...(found.bill.priced ? billTable(found) : [make("p", {}, say("quote-none"))]),
      book.versionSum(found),
      share,
      make("ul", { class: "small columns notes" }, ...notes(found).map((text) => make("li", {}, text))),
      make("p", { class: "small" }, say("estimated", { what: estimates.join("; ") })),
      make("p", { class: "small" }, `${say("quote-estimate")} ${say("quote-list", { version: shop.list.version })}`),
    );
    home.replaceChildren(make("h3", {}, `${say("quote-title")}: ${found.pack.name}`),
      make("div", { class: "beside" }, told, make("div", { class: "views" }, seat, thickness)));
    return book.later("share.js").then(() => book.share(found, share, home));
  }

  // Where the eyes sit and how thick the lens is: scripts of their own, drawn in pauses over what was drawn before.
  async function look(found) {
    const still = () => state.chosen === found.pack.id && byId(state.chosen) === found;
    try {
      await Promise.all([book.forDrawing(), book.later("views.js")]);
    } catch {
      if (still()) seat.replaceChildren(make("p", { class: "small" }, say("views-fault")));
      return;
    }
    inPauses(book.viewPieces(seat, thickness, found), still, 100);
  }

  // What the chosen color's version means, and a way to the other one.
  function version() {
    const show = (other) => {
      const box = controls.colors.querySelector(`input[value="${other.id}"]`);
      box.click();
      box.focus();
    };
    const parts = book.versionParts(frame, state.color, show);
    controls.version.hidden = !parts.length;
    controls.version.replaceChildren(...parts);
  }

  // The ranges cost more than the answers, and come after them, row by row, into room that is kept for them.
  function ranges() {
    const these = offers;
    const still = () => these === offers;
    inPauses(these.map((found) => () => rowOf(found.pack).cells.range.replaceChildren(...book.rangeBar(found))), still);
    const not = these.filter((found) => found.fit.verdict === "no");
    const rowHelp = (found) => () => {
      const details = rowOf(found.pack).cells.verdict.querySelector("details");
      if (details) book.rowHelp(found, these, details, go);
    };
    if (not.length) withHelpers(() => inPauses(not.map(rowHelp), still));
  }

  function answer() {
    const empty = book.isEmpty(state.ask);
    place.hidden = empty;
    if (empty) return;
    if (!controls.table) skeleton();
    try {
      const ask = asked();
      offers = shop.packages.map((pack) => book.offer(frame, state.size, state.color, pack, ask));
      version();
      table_();
      comparison();
      detail();
      ranges();
    } catch (error) {
      // A defect of ours: the printed table still holds, so it comes back with a plain sentence.
      console.error(error, globalThis.bevelKernel.runtime.where?.(error));
      document.documentElement.classList.remove("asked");
      book.tell(controls.status, say("board-fault"));
      document.getElementById("live-table").replaceChildren();
    }
  }

  recall();
  book.onAsk((ask) => {
    state.ask = ask;
    answer();
    remember();
  });
  book.warmUp(frame, () => book.isEmpty(state.ask));
})();
