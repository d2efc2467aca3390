// The live lens board of a frame: one row a package, answering for the visitor's own eyes.
// SPDX-License-Identifier: AGPL-3.0-or-later
(function () {
  "use strict";

  const book = globalThis.bevelbook;
  const { shop, make, say, inPauses, inTasks, put, rowOf, fillRow, drawRow, withHelpers } = book;
  const place = document.getElementById("live");
  const block = document.getElementById("frame-data");
  if (!place || !block) return;

  const frame = JSON.parse(block.textContent);
  const ORDER = { fits: 0, caution: 1, no: 2 };
  // Of lenses with a caution, those that leave the addition out come behind those that were prescribed.
  const LESS = ["add-left-out", "add-needs-progressive"];
  const rank = ({ fit }) => ORDER[fit.verdict] + (fit.verdict === "caution" && fit.reasons.some(({ code }) => LESS.includes(code)) ? 0.5 : 0);
  const MOST = 4;
  const usual = book.firstColor(frame);
  const state = { size: frame.sizes[0], color: usual, chosen: null, compared: new Set(),
    options: [], ask: book.nothing() };
  let offers = [];

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

  // What is shown, in its order: groups of rows, each with the words that name it.
  function groupsOf(shown) {
    const by = controls.sort.value;
    if (by !== "design" && shown.length) {
      return [["", shown.sort((a, b) => rank(a) - rank(b) || BY[by](a, b))]];
    }
    const best = (group) => Math.min(...group.map(rank));
    const groups = new Map();
    // Of each design what can be made comes first, and before all others the designs that are what was prescribed.
    for (const found of shown.sort((a, b) => (a.fit.verdict === "no") - (b.fit.verdict === "no"))) {
      const key = `${found.pack.maker}/${found.pack.design}`;
      if (!groups.has(key)) groups.set(key, []);
      groups.get(key).push(found);
    }
    const cheapest = (group) => Math.min(...group.flatMap((found) => found.pack.table.prices.map((band) => band.cents)));
    const kind = (group) => shop.kinds.indexOf(group[0].pack.table.kind);
    return [...groups].sort(([, a], [, b]) => best(a) - best(b) || kind(a) - kind(b) || cheapest(a) - cheapest(b));
  }

  const bodies = new Map();

  function bodyOf([key, group]) {
    if (!bodies.has(key)) {
      const { design, kindText, maker } = group[0].pack;
      const title = make("span", { class: "stay" }, make("b", {}, design), " ", make("small", {}, `${kindText}, ${maker}`));
      const head = make("tr", { class: "design" }, make("th", { scope: "rowgroup", colspan: "9" }, title));
      bodies.set(key, [make("tbody", {}), key ? [head] : []]);
    }
    const [body, head] = bodies.get(key);
    settle(body, [...head, ...group.map((found) => rowOf(found.pack).row)]);
    return body;
  }

  let toldOf = "";
  function status(shown) {
    const fits = offers.filter((found) => found.fit.verdict !== "no").length;
    const caution = offers.filter((found) => found.fit.verdict === "caution").length;
    const all = offers.length;
    const text = fits ? say(caution ? "board-status" : "board-clear", { fits, caution, all }) : say("board-none", { all });
    const whole = shown < all ? `${text} ${say("filter-left", { shown, all })}` : text;
    if (toldOf !== (toldOf = `${turn} ${whole}`)) book.tell(controls.status, whole); // once for each answer
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

  // `wanted` in its order inside of `home`; what stands right already is not touched, and is laid out no second time.
  function settle(home, wanted) {
    const keep = new Set(wanted);
    for (const node of [...home.children]) if (!keep.has(node)) node.remove();
    let at = home.firstChild;
    for (const node of wanted) {
      if (node === at) at = at.nextSibling;
      else if (node === at?.nextSibling) {
        home.append(at); // one that went down the list
        at = node.nextSibling;
      } else home.insertBefore(node, at);
    }
  }

  function table_() {
    const shown = offers.filter(wanted);
    shown.forEach(fillRow);
    const focus = document.activeElement;
    const bodies = groupsOf(shown).map(bodyOf);
    settle(controls.table, [controls.caption, controls.table.tHead, ...bodies]);
    if (focus && focus !== document.activeElement && controls.table.contains(focus)) focus.focus({ preventScroll: true });
    put(controls.caption, say("board-caption", { frame: frame.name, size: state.size.label }));
    status(shown.length);
  }

  // What was picked stands in the address, so that the address is a link to it.
  function remember() {
    const parts = [];
    if (state.size !== frame.sizes[0]) parts.push(`size=${state.size.key}`);
    if (state.color !== usual) parts.push(`color=${state.color.id}`);
    if (state.chosen) parts.push(`lens=${state.chosen}`);
    if (state.options.length) parts.push(`with=${state.options.join()}`);
    if (state.compared.size) parts.push(`beside=${[...state.compared].join()}`);
    if (book.tint) parts.push(`tint=${book.tint}`);
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
    state.options = (said.with ?? "").split(",").filter((word) => /^(tint-[1-9]\d?|gradient|mirror(-[a-z\d-]+)?|mix|slab_off|rush)$/.test(word));
    book.tint ??= said.tint;
    if (book.tint) document.getElementById("tinted")?.setAttribute("open", "");
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
  const withShare = (work) => book.later("share.js").then(() => book.lit(state.options)).then(work);
  const bar = () => (book.bar || state.chosen || state.compared.size) &&
    withShare(() => book.bar(book.withOptions(byId(state.chosen), state.options), [...state.compared].filter(byId)));

  function comparison() {
    const many = [...state.compared].map(byId).filter(Boolean);
    const home = document.getElementById("live-compare");
    home.hidden = many.length < 2;
    bar();
    if (many.length < 2) return home.replaceChildren();
    return Promise.all(["../css/views.css", "compare.js"].map((path) => book.later(path))).then(() => book.compare(home, many));
  }

  function detail() {
    const home = document.getElementById("live-quote");
    const found = state.chosen && byId(state.chosen);
    home.hidden = !found;
    bar();
    document.documentElement.classList.toggle("picked", Boolean(found)); // paper then holds this lens alone
    if (!found) return home.replaceChildren();
    const { options } = state;
    const still = () => byId(state.chosen) === found && state.options === options;
    const change = (words) => {
      state.options = words;
      detail();
      remember();
    };
    return withShare(() => still() && book.detail(home, book.withOptions(found, options), offers, still, change));
  }

  function go({ pack, size }) {
    if (size) document.querySelector(`input[name="live-sizes"][value="${size.key}"]`).click();
    if (pack) pick(pack.id);
    const { choose } = rowOf(pack ?? byId(state.chosen)?.pack ?? offers[0].pack);
    choose.checked = choose.value === state.chosen;
    choose.focus();
  }
  Object.assign(book.deeds, { state, pick, compare: compareWith, go, offers: () => offers });

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
    const [these, mine] = [offers, turn];
    const still = () => mine === turn; // or a row that a key has filled since would get an older section
    const range = (found) => () => rowOf(found.pack).cells.range.replaceChildren(...book.rangeBar(found));
    inPauses([...these.map((found) => () => drawRow(found)), ...these.map(range)], still);
    const not = these.filter((found) => found.fit.verdict === "no");
    const rowHelp = (found) => () => {
      const details = rowOf(found.pack).cells.verdict.querySelector("details");
      if (details) book.rowHelp(found, these, details, go);
    };
    if (not.length) withHelpers(() => inPauses(not.map(rowHelp), still));
  }

  // A defect of ours: the printed table still holds, so it comes back with a plain sentence.
  const safely = (work) => (...given) => {
    try {
      work(...given);
    } catch (error) {
      console.error(error, globalThis.bevelKernel.runtime.where?.(error));
      document.documentElement.classList.remove("asked");
      book.tell(controls.status, say("board-fault"));
      document.getElementById("live-table").replaceChildren();
    }
  };

  // `soft`: at first, and while somebody types.  The rows in sight and the chosen lens are filled at once, their sections and
  // how many fit come soon, and once no key follows the other rows and the order of all: so little is laid out and painted
  // between a key and its answer.  Where no row is in sight, how many fit is all that is seen of it, and is told at once.
  const QUIET_MS = 300;
  let turn = 0;
  const answer = safely((soft) => {
    const mine = (turn += 1);
    if (book.isEmpty(state.ask)) {
      place.hidden = true;
      return;
    }
    if (!controls.table) skeleton();
    const ask = asked();
    const found = new Map();
    const reckon = (pack) => found.get(pack) ?? found.set(pack, book.offer(frame, state.size, state.color, pack, ask)).get(pack);
    const one = (pack) => fillRow(reckon(pack));
    const count = () => {
      offers = shop.packages.map(reckon);
      status(offers.filter(wanted).length);
    };
    const all = safely(() => {
      offers = shop.packages.map(reckon);
      place.hidden = false;
      version();
      table_();
      comparison();
      detail();
      ranges();
    });
    const [first, later] = [[], []];
    for (const pack of shop.packages) {
      (!soft || pack.id === state.chosen || book.inSight.has(rowOf(pack).row) ? first : later).push(pack);
    }
    first.forEach(one);
    const drawn = first.map((pack) => () => book.inSight.has(rowOf(pack).row) && drawRow(reckon(pack)));
    if (!soft) {
      drawn.forEach((draw) => draw());
      return all();
    }
    const still = () => mine === turn;
    const rest = later.map((pack) => safely(() => one(pack)));
    if (place.hidden) return inTasks(rest, still, all);
    const end = performance.now() + 8;
    if (!first.length && later.every((pack) => performance.now() < end && reckon(pack))) count();
    const soon = [...drawn, ...later.map((pack) => () => reckon(pack)), count].map(safely);
    setTimeout(() => inTasks(soon, still), QUIET_MS / 4);
    return setTimeout(() => inTasks(rest, still, all), QUIET_MS);
  });

  // In the table of sizes each leads to its board: here it is one for all of them.
  document.addEventListener("click", (event) => {
    const key = event.target.closest?.('a[href^="#board-"]')?.hash.slice("#board-".length);
    const box = !place.hidden && key && controls.sizes.querySelector(`input[value="${key}"]`);
    if (!box) return;
    event.preventDefault();
    box.click();
    place.scrollIntoView();
    box.focus({ preventScroll: true });
  });

  recall();
  book.onAsk((ask, soft) => {
    state.ask = ask;
    answer(soft);
    remember();
  });
  book.warmUp(frame, () => book.isEmpty(state.ask));
})();
