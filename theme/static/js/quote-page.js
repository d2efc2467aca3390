// The page of a quote: opens what stands behind the # of the address, and says what it is worth.
// SPDX-License-Identifier: AGPL-3.0-or-later
(function () {
  "use strict";

  const book = globalThis.bevelbook;
  const { shop, make, fill, mm, power, money, local } = book;
  const { words } = globalThis.bevelQuotes;
  const at = (id) => document.getElementById(id);
  const tell = (key, values = {}) => fill(words[key], values);
  const SIGNS = { fits: "\u2713", caution: "!", no: "\u00d7" };
  const REFUSED = ["unknown-key", "altered", "recalled-key", "late-key"];
  const LETTERS = "ABCD";

  let fronts = 0; // each front's paint has an id of its own

  const plain = (hundredths) => local(String(hundredths / 100));
  const day = (number) => new Intl.DateTimeFormat(shop.language, { dateStyle: "medium", timeZone: "UTC" }).format(book.dayOf(number));
  const sum = (pair) => pair.lines.reduce((cents, line) => cents + line.cents, 0);
  // An amount in the quote's own currency, which may be another by now.
  const amount = (quote, cents) => (quote.currency === shop.currency ? money(cents) : `${local((cents / 100).toFixed(2))} ${quote.currency}`);

  const frameName = (frame) => `${frame.maker} ${frame.name} ${plain(frame.a)}\u25a1${plain(frame.dbl)} ${plain(frame.temple)}, ${frame.color_name}`;

  function eyeText(eye) {
    if (!eye) return tell("no-lens");
    const parts = [power(eye.sphere / 1000)];
    parts.push(eye.cylinder ? `${power(eye.cylinder / 1000)} \u00d7 ${String(eye.axis).padStart(3, "0")}` : tell("sphere"));
    if (eye.add) parts.push(tell("add", { power: power(eye.add / 1000) }));
    const base = (value, key) => tell(key, { amount: mm(Math.abs(value) / 1000, 2) });
    if (eye.prism_in) parts.push(base(eye.prism_in, eye.prism_in > 0 ? "prism-in" : "prism-out"));
    if (eye.prism_up) parts.push(base(eye.prism_up, eye.prism_up > 0 ? "prism-up" : "prism-down"));
    return parts.join(" ");
  }

  function pdText(rx) {
    const both = rx.pd_right !== null && rx.pd_left !== null;
    const text = both ? `${plain(rx.pd_right)}/${plain(rx.pd_left)}` : rx.pd !== null && plain(rx.pd);
    const far = text ? tell("pd", { text }) : tell("no-pd");
    return rx.pd_near === null ? far : tell("pd-near", { pd: far, near: plain(rx.pd_near) });
  }

  // What was wished beyond the lens, and whom it is for; what nobody knows any more is left out.
  function wishTexts(pair) {
    const depth = pair.tint === null ? pair.wishes.tint_depth : 0;
    const others = pair.wishes.others.filter((name) => name !== "mirror" || pair.mirror === null);
    const tint = others.includes("tint_gradient") ? "tint_gradient" : "tint";
    const names = [...(depth ? [tint] : []), ...others.filter((name) => name !== "tint_gradient"), ...(pair.measures.child ? ["child"] : [])];
    return names.map((name) => `wish-${name}`).filter((key) => Object.hasOwn(words, key)).map((key) => tell(key, { depth: plain(depth) }));
  }

  function measureTexts(pair) {
    const used = pair.measures;
    const values = (right, left) => ({ text: `${plain(right)}/${plain(left)}` });
    const found = [];
    if (pair.estimated.includes("pd")) found.push(tell("pd-estimated", values(used.used_pd_right, used.used_pd_left)));
    found.push(tell(pair.estimated.includes("height") ? "heights-estimated" : "heights", values(used.used_height_right, used.used_height_left)));
    if (used.tilt !== null) found.push(tell("tilt", { angle: plain(used.tilt) }));
    if (used.wrap !== null) found.push(tell("wrap", { angle: plain(used.wrap) }));
    const wished = wishTexts(pair);
    if (wished.length) found.push(tell("wished", { what: wished.join(", ") }));
    return found;
  }

  function reasonText(reason, lens) {
    if (!Object.hasOwn(shop.words.reasons, reason.code)) return reason.code;
    const told = { ...reason, needed: reason.needed / 100, given: reason.given / 100 };
    return book.sentence(told, { table: { kind: lens.kind } }, "customer");
  }

  // What the pair weighs, and with the frame where its weight is known.
  function weightText(pair, frame) {
    const lenses = [pair.right, pair.left].filter(Boolean).reduce((grams, figures) => grams + figures.weight, 0) / 100;
    return tell(frame.weight ? "weight-framed" : "weight", { lenses: mm(lenses), whole: mm(lenses + frame.weight / 100) });
  }

  function figureText(side, figures) {
    const where = shop.words.places[figures.edge_max_at] ?? figures.edge_max_at;
    return make("li", {}, make("b", {}, side), " ", tell("figures", {
      edge: mm(figures.edge_max / 100), at: where, center: mm(figures.center / 100), grams: mm(figures.weight / 100) }));
  }

  function lineText(line, frame, lens) {
    const said = Object.hasOwn(shop.words.lines, line.key) ? shop.words.lines[line.key] : "{name}";
    return fill(said, { frame: frameName(frame), lens: `${lens.maker} ${lens.name}`, name: line.text, region: line.text, rate: local(line.text) });
  }

  // Lines then and now under each other where both name the same thing.
  function bill(quote, pair, today) {
    const [frame, lens] = [quote.frames[pair.frame], quote.lenses[pair.lens]];
    const key = (line) => `${line.key}/${line.text}`;
    const now = new Map((today?.lines ?? []).map((line) => [key(line), line]));
    const differs = today && (quote.currency !== shop.currency || today.total !== sum(pair) || pair.lines.some((line) => now.get(key(line))?.cents !== line.cents));
    const cell = (cents, said = (one) => amount(quote, one)) => make("td", { class: "num" }, cents === undefined ? "\u2013" : said(cents));
    const row = (line, then, later, remark) => make("tr", {}, make("th", { scope: "row" }, lineText(line, frame, lens), remark),
      cell(then), differs ? cell(later, money) : null);
    const rows = pair.lines.map((line) => {
      const listed = line.listed === null ? null : make("small", {}, line.reason, " ", tell("listed", { amount: amount(quote, line.listed) }));
      return row(line, line.cents, now.get(key(line))?.cents, listed);
    });
    const old = new Set(pair.lines.map(key));
    const added = differs ? today.lines.filter((line) => !old.has(key(line))).map((line) => row(line, undefined, line.cents, null)) : [];
    const total = make("tr", { class: "sum" }, make("th", { scope: "row" }, tell("total")), cell(sum(pair)), differs ? cell(today.total, money) : null);
    const head = differs ? make("thead", {}, make("tr", {}, make("th", { scope: "col" }, tell("what")),
      make("th", { scope: "col", class: "num" }, tell("then")), make("th", { scope: "col", class: "num" }, tell("now")))) : null;
    const inside = pair.tax_included ? make("p", { class: "small" }, tell("tax-inside", { amount: amount(quote, pair.tax_included) })) : null;
    if (!pair.lines.length) return [make("p", {}, tell("no-price"))];
    return [make("table", { class: "bill" }, head, make("tbody", {}, ...rows, ...added, total)), inside];
  }

  function pairPart(quote, pair, title, today) {
    const [frame, lens, rx] = [quote.frames[pair.frame], quote.lenses[pair.lens], quote.prescriptions[pair.prescription]];
    const name = frameName(frame);
    const drawing = book.quoteFront?.(frame, tell("front", { frame: name }));
    if (drawing) book.putOn?.(drawing, book.tintPaint(quote, pair), `paint-${fronts++}`);
    const light = shop.words.lights[lens.light] ?? lens.light;
    const held = Object.hasOwn(shop.mountings, frame.mounting) ? shop.mountings[frame.mounting].text : frame.mounting;
    const box = `${held}; A ${plain(frame.a)} B ${plain(frame.b)} DBL ${plain(frame.dbl)} ED ${plain(frame.ed)}`;
    const reasons = pair.reasons.map((reason) => make("li", { class: reason.verdict }, reasonText(reason, lens)));
    const tint = book.tintLines?.(quote, pair) ?? [];
    const sides = [[tell("right"), pair.right], [tell("left"), pair.left]].filter(([, figures]) => figures);
    const estimates = pair.estimated.map((name_) => shop.words.estimates[name_]);
    return make("div", { class: "quote-pair" },
      title ? make("h3", {}, title) : null,
      make("div", { class: "two" },
        make("div", {},
          drawing ? make("figure", { class: "quote-front" }, drawing) : null,
          make("p", {}, make("b", {}, name), make("br"), box),
          make("p", {}, `${lens.maker} ${lens.name}: ${lens.design}, ${lens.material}, ${light}, ${lens.coating}`),
          tint.length ? make("p", { class: "quote-tint" }, ...tint.flatMap((text, n) => (n ? [make("br"), text] : [text]))) : null,
          make("p", { class: `verdict ${pair.verdict}` }, `${SIGNS[pair.verdict]} ${tell(`verdict-${pair.verdict}`)}`),
          reasons.length ? make("ul", { class: "reasons" }, ...reasons) : null,
          make("p", { class: "figure quote-rx" }, `${tell("right")} ${eyeText(rx.right)}`, make("br"), `${tell("left")} ${eyeText(rx.left)}`, make("br"), pdText(rx),
            ...measureTexts(pair).flatMap((text) => [make("br"), text])),
          make("ul", { class: "lenses small" }, ...sides.map(([side, figures]) => figureText(side, figures)),
            sides.length ? make("li", {}, weightText(pair, frame)) : null),
          estimates.length ? make("p", { class: "small" }, tell("estimated", { what: estimates.join("; ") })) : null),
        make("div", {}, ...bill(quote, pair, today))));
  }

  // Said once: what is different today.
  function changes(quote, todays) {
    const found = [];
    if (quote.price_list !== shop.list.version) found.push(tell("other-list", { old: quote.price_list, version: shop.list.version }));
    todays.forEach((today, which) => {
      const name = todays.length > 1 ? `${LETTERS[which]}: ` : "";
      const then = quote.alternatives[which].reduce((cents, pair) => cents + sum(pair), 0);
      if (today?.gone) found.push(name + tell("gone", { what: today.gone }));
      else if (today?.misfit) found.push(name + tell("misfit", { what: today.misfit }));
      else if (today && (quote.currency !== shop.currency || today.total !== then)) found.push(name + tell("other-total", { then: amount(quote, then), now: money(today.total) }));
    });
    found.push(...(book.tintChanges?.(quote) ?? []));
    const changed = quote.alternatives.flat().some((pair) => pair.lines.some((line) => line.listed !== null));
    if (changed && todays.some((today) => today?.total !== undefined)) found.push(tell("changed"));
    if (!todays.some(Boolean)) found.push(tell("no-today"));
    return found.length ? found : [tell("same")];
  }

  function cautionsOf(quote) {
    const about = new Set(["quote"]);
    for (const pair of quote.alternatives.flat()) {
      const [lens, rx] = [quote.lenses[pair.lens], quote.prescriptions[pair.prescription]];
      about.add(lens.kind).add(lens.light).add(lens.impact_resistant ? "impact-resistant" : "not-impact-resistant");
      if (pair.wishes.tint_depth) about.add("tinted");
      for (const eye of [rx.right, rx.left]) {
        if (eye && Math.max(eye.sphere, eye.sphere + eye.cylinder) / 1000 >= shop.strong_plus) about.add("strong-plus");
      }
    }
    return [...globalThis.bevelQuotes.cautions, ...Object.entries(shop.cautions).flatMap(([word, sentences]) => (about.has(word) ? sentences : []))];
  }

  // A letter to the shop: the visitor's own mail program shows it before it goes anywhere.
  function letter(quote, link) {
    const subject = quote.number ? tell("letter-about", { number: quote.number }) : tell("letter-estimate");
    const body = [tell("letter-words"), "", "", link].join("\r\n");
    return `mailto:${shop.email}?subject=${encodeURIComponent(subject)}&body=${encodeURIComponent(body)}`;
  }

  function actions(quote, link) {
    const told = make("span", { class: "small" });
    const button = (key, act) => {
      const found = make("button", { type: "button" }, tell(key));
      found.addEventListener("click", act);
      return found;
    };
    const copy = button("copy", () => book.copied(link, tell("copied"), (text) => [told, at("aloud")].forEach((one) => one.replaceChildren(text))));
    const share = navigator.share ? button("share", () => navigator.share({ title: document.title, url: link }).catch(() => {})) : null;
    return make("p", { class: "share away" }, make("a", { class: "button", href: letter(quote, link) }, tell("ask")), " ", share, " ", copy, " ",
      button("print", () => print()), " ", told);
  }

  function heading(quote, standing) {
    const title = quote.number ? tell("title", { number: quote.number }) : tell("title-estimate");
    at("quote-title").replaceChildren(title);
    document.title = `${title}: ${shop.name}`;
    const facts = [[tell("issued"), day(quote.issued)]];
    if (standing !== "estimate") facts.push([tell("holds-until"), day(quote.expires)]);
    facts.push([tell("price-list"), quote.price_list]);
    return make("dl", { class: "facts" }, ...facts.flatMap(([name, value]) => [make("dt", {}, name), make("dd", {}, value)]));
  }

  // Several alternatives beside each other, a row each: what differs, and what it comes to.
  function overview(quote, todays) {
    if (quote.alternatives.length < 2) return null;
    const head = ["", tell("frame-and-lens"), tell("thickest"), tell("total")];
    const rows = quote.alternatives.map((pairs, which) => {
      const then = pairs.reduce((cents, pair) => cents + sum(pair), 0);
      const now = todays[which]?.total;
      const same = now === undefined || (now === then && quote.currency === shop.currency);
      const edges = pairs.flatMap((pair) => [pair.right, pair.left]).filter(Boolean).map((figures) => figures.edge_max);
      const lines = pairs.flatMap((pair) => [make("br"), make("b", {}, frameName(quote.frames[pair.frame])), make("br"),
        [`${quote.lenses[pair.lens].maker} ${quote.lenses[pair.lens].name}`, book.tintShort?.(quote, pair)].filter(Boolean).join(", ")]);
      return make("tr", {}, make("th", { scope: "row" }, LETTERS[which]), make("td", {}, ...lines.slice(1)),
        make("td", { class: "num" }, edges.length ? tell("mm", { mm: mm(Math.max(...edges) / 100) }) : "\u2013"),
        make("td", { class: "num" }, amount(quote, then), same ? null : make("small", {}, tell("today", { amount: money(now) }))));
    });
    return make("div", { class: "quote-overview" }, make("p", {}, tell("choose", { count: String(rows.length) })),
      make("table", {}, make("thead", {}, make("tr", {}, ...head.map((text, at_) => make(text ? "th" : "td", text ? { scope: "col", class: at_ > 1 ? "num" : "" } : {}, text)))),
        make("tbody", {}, ...rows)));
  }

  function alternativePart(quote, which, today) {
    const pairs = quote.alternatives[which];
    const many = pairs.length > 1;
    const parts = pairs.map((pair, pairAt) => pairPart(quote, pair, many ? tell(pairAt ? "second-pair" : "first-pair") : "", today?.pairs?.[pairAt]));
    const then = pairs.reduce((cents, pair) => cents + sum(pair), 0);
    const now = today?.total === undefined || (today.total === then && quote.currency === shop.currency) ? "" : ` ${tell("today", { amount: money(today.total) })}`;
    const total = many ? make("p", { class: "quote-both" }, tell("both", { amount: amount(quote, then) }), now) : null;
    const head = quote.alternatives.length > 1 ? make("h2", {}, tell("alternative", { letter: LETTERS[which] })) : null;
    return make("div", { class: "quote-alternative" }, head, ...parts, total);
  }

  // A quote that nobody signed, without what only a shop says, as quoting/quoted/trust.py has it.
  function unvouched(quote) {
    const alternatives = quote.alternatives.map((pairs) => pairs.map((pair) =>
      ({ ...pair, lines: pair.lines.map((line) => ({ ...line, listed: null, reason: "" })) })));
    return { ...quote, number: "", note: "", alternatives };
  }

  async function parts(quote, standing, link) {
    const dyed = quote.lenses.some(({ light }) => light !== "clear")
      || quote.alternatives.flat().some((pair) => pair.passed.length || pair.tint !== null || pair.mirror);
    const more = ["quote-front.js", ...(dyed ? ["quote-tint.js", "../../data/quote-tints.js"] : [])];
    const [todays, ...lacking] = await Promise.all([book.requoted(quote), ...more.map((path) => book.later(path).then(() => null, () => path))]);
    return [
      heading(quote, standing),
      lacking.some(Boolean) ? make("p", { class: "note" }, book.say("script-fault")) : null,
      quote.note ? make("p", { class: "quote-note" }, quote.note) : null,
      make("div", { class: "note" }, make("h2", {}, tell("since")), make("ul", {}, ...changes(quote, todays).map((text) => make("li", {}, text)))),
      actions(quote, link),
      overview(quote, todays),
      ...quote.alternatives.map((_, which) => alternativePart(quote, which, todays[which])),
      make("section", {}, make("h2", {}, tell("note")), make("ul", { class: "small columns" }, ...cautionsOf(quote).map((text) => make("li", {}, text)))),
    ].filter(Boolean);
  }

  function say(key, values, parts_ = []) {
    const status = at("quote-status");
    status.className = `quote-status ${key}`;
    status.replaceChildren(tell(key, values));
    at("aloud").replaceChildren(status.textContent);
    at("quote").replaceChildren(...parts_);
    if (!parts_.length) at("quote-title").replaceChildren(tell("title-none"));
  }

  // The address holds the quote that is shown, as its link was made: also after it was pasted, or came mangled, and
  // where something led to a part of this page, as past its head.
  let kept = location.hash;
  function keep(text) {
    kept = `#${text}`;
    if (location.hash !== kept) history.replaceState(null, "", kept);
  }

  // Only the last of several openings is shown.
  let turn = 0;
  async function open(text) {
    const mine = ++turn;
    let answer = ["fault", {}, []];
    try {
      if (typeof DecompressionStream === "undefined") answer = ["old-browser", {}, []];
      else answer = await answered(text);
    } catch (error) {
      // A defect of ours: a plain sentence stands in its place.
      console.error(error, globalThis.bevelKernel.runtime.where?.(error));
    }
    const [key, values, parts_, whole] = answer;
    if (mine === turn) {
      if (whole) keep(whole);
      say(key, values, parts_);
    }
    return key;
  }

  async function answered(text) {
    const found = await book.openedQuote(text);
    if (found.fault) return [found.fault, {}, []];
    const standing = await book.standingOf(found);
    if (REFUSED.includes(standing)) return [standing, {}, []];
    const quote = standing === "estimate" ? unvouched(found.quote) : found.quote;
    const link = `${location.href.split("#")[0]}#${found.text}`;
    return [standing, { day: day(quote.expires) }, await parts(quote, standing, link), found.text];
  }

  book.later("../css/quote.css").catch(() => {});
  const paste = at("quote-paste");
  paste.addEventListener("input", () => {
    const text = paste.value.slice(paste.value.lastIndexOf("#") + 1);
    if (text.trim()) open(paste.value);
  });
  // To another language the quote goes along.
  for (const link of document.querySelectorAll("a[hreflang]")) link.addEventListener("click", () => (link.hash = location.hash));
  addEventListener("hashchange", () => {
    if (at(location.hash.slice(1))) history.replaceState(null, "", kept);
    else book.quoteShown = open(kept = location.hash);
  });
  at("quote-elsewhere").hidden = false;
  book.quoteShown = open(location.hash);
})();
