// The list of frames: filtered by what is printed on them, and ranked for the visitor's own prescription.
// SPDX-License-Identifier: AGPL-3.0-or-later
(function () {
  "use strict";

  const book = globalThis.bevelbook;
  const { shop, make, say, mm, money, soon, inTasks } = book;
  const frames = globalThis.bevelFrames;
  const tools = document.getElementById("find");
  if (!tools || !frames) return;

  const at = (id) => document.getElementById(id);
  const cards = new Map([...document.querySelectorAll("[data-frame]")].map((card) => [card.dataset.frame, card]));
  const groups = at("by-maker");
  const ranking = at("ranking");
  const places = new Map([...cards].map(([id, card]) => [id, { parent: card.parentNode, next: card.nextSibling }]));
  const best = new Map();
  const READS = ["progressive", "bifocal"];
  const FACETS = ["family", "mounting", "maker"];
  const MATCH_MM = 2; // a size counts as near where lens width and bridge differ by no more
  const kind = at("find-kind");
  let ask = book.nothing();
  let chosen = false; // whether the visitor, or a link, said which lens
  let turn = 0;
  let worker = startWorker();

  // A browser that opens the page from disk allows no worker; then the work is done here in small pieces.
  function startWorker() {
    if (location.protocol === "file:") return null;
    try {
      const made = new Worker(new URL("suit-worker.js", document.currentScript.src));
      made.onmessage = ({ data }) => data.turn === turn && take(data.found, data.done);
      made.onerror = () => {
        worker = null;
        reckon();
      };
      return made;
    } catch {
      return null;
    }
  }

  const number = (id) => book.number(at(id).value);

  // What the tools ask for; the same words in the address make it a link.
  function wanted() {
    const facets = Object.fromEntries(FACETS.map((name) => [name, at(`find-${name}`).value]));
    return { ...facets, kind: kind.value, need: at("find-need").value, a: number("find-a"),
      dbl: number("find-dbl"), b: number("find-b"), most: number("find-most") };
  }

  const nearSize = (size, want) =>
    (want.a === null || Math.abs(size.a - want.a) <= MATCH_MM) &&
    (want.dbl === null || Math.abs(size.dbl - want.dbl) <= MATCH_MM) &&
    (want.b === null || size.b >= want.b);

  function matches(frame, want, without) {
    if (!FACETS.every((name) => name === without || !want[name] || frame[name] === want[name])) return false;
    if (want.most !== null && book.cheapest(frame).cents > want.most * 100) return false;
    return frame.sizes.some((size) => nearSize(size, want));
  }

  // How many frames each choice would leave, the other choices as they are.
  function counts(want) {
    for (const name of FACETS) {
      const left = new Map();
      for (const frame of frames) if (matches(frame, want, name)) left.set(frame[name], (left.get(frame[name]) ?? 0) + 1);
      for (const option of at(`find-${name}`).options) {
        const text = option.value && `${option.dataset.text} (${left.get(option.value) ?? 0})`;
        if (text && text !== option.textContent) option.textContent = text;
      }
    }
  }

  function answerLine(card, found) {
    if (card.found === found) return;
    card.found = found;
    const line = found && make("p", { class: `suits ${found.verdict}` }, found.order ? `! ${say("verdict-caution")}: ` : "",
      say("suits", { name: found.name, size: found.label, edge: mm(found.edge), grams: mm(found.weight) }), " ",
      make("b", {}, money(found.cents)));
    card.querySelector(".suits")?.remove();
    if (found !== undefined) card.querySelector(".card-text").append(line ?? make("p", { class: "suits no" }, say("suits-none")));
  }

  const FAR = 1e9;
  const AT_ONCE = 24; // more than a window shows
  let placed = null;

  // The first cards in their new order at once, all others in tasks after them; null: as the page came.
  function place(shown, answers) {
    if (!shown && !placed) return;
    const mine = (placed = shown && {});
    if (!shown) for (const [id, { parent, next }] of [...places].reverse()) parent.insertBefore(cards.get(id), next);
    const all = shown ?? frames;
    const some = (from) => () => {
      const these = all.slice(from, from + AT_ONCE);
      for (const { id } of these) answerLine(cards.get(id), answers?.get(id));
      if (shown) ranking.append(...these.map(({ id }) => cards.get(id)));
    };
    ranking.replaceChildren();
    some(0)();
    inTasks(all.flatMap((_, i) => (i && i % AT_ONCE === 0 ? [some(i)] : [])), () => placed === mine);
  }

  function arrange() {
    const want = wanted();
    counts(want);
    const asked = !book.isEmpty(ask);
    const shown = frames.filter((frame) => matches(frame, want, ""));
    const plain = !asked && want.need === "price" && FACETS.every((name) => !want[name]) && shown.length === frames.length;
    // What is told of a frame is of a size that was asked for; undefined: nobody knows yet.
    const answer = ({ id, sizes }) => best.get(id)?.reduce(
      (found, one, i) => (nearSize(sizes[i], want) && book.better(one, found) ? one : found), null);
    const answers = asked ? new Map(shown.map((frame) => [frame.id, answer(frame)])) : null;
    if (asked) {
      const value = (found) => (found ? found.order * FAR + found.value : (found === undefined ? 2 : 3) * FAR);
      shown.sort((a, b) => value(answers.get(a.id)) - value(answers.get(b.id)));
    }
    groups.hidden = !plain;
    ranking.hidden = plain;
    place(plain ? null : shown, answers);
    const fit = shown.filter(({ id }) => answers?.get(id)).length;
    const done = !asked || best.size === frames.length;
    ranking.classList.toggle("reckoning", !done);
    // Where none can be made for want of an addition, that is the answer, and not that no frame is fit for it.
    const lacking = READS.includes(want.kind) ? ["right", "left"].filter((side) => ask[side] && !ask[side].add) : [];
    const pack = shop.packages.find((one) => one.table.kind === want.kind);
    const reason = { code: "add-missing", eye: lacking.length === 2 ? "B" : lacking[0]?.[0].toUpperCase(), needed: 0, given: 0 };
    const why = lacking.length && pack ? ` ${book.sentence(reason, pack, "customer")}` : "";
    book.tell(at("find-status"), asked && done
      ? say("list-fit", { fit, shown: shown.length, all: frames.length }) + why
      : say("list-shown", { shown: shown.length, all: frames.length }), !done);
    remember(want);
  }

  const arrangeSoon = soon(arrange);

  function take(found, done) {
    for (const [index, one] of found) best.set(frames[index].id, one);
    if (done) arrangeSoon();
  }

  // In pieces of a few milliseconds, so that typing is never kept waiting.
  function pieces(mine, want) {
    const packs = book.makeable(ask, want.kind);
    let next = 0;
    (function some() {
      if (mine !== turn) return;
      const found = [];
      for (const end = performance.now() + 8; next < frames.length && performance.now() < end; next += 1) {
        found.push([next, book.bestOf(frames[next], ask, packs, want.need)]);
      }
      take(found, next === frames.length);
      if (next < frames.length) setTimeout(some, 0);
    })();
  }

  // The lens that was prescribed, until somebody says which: progressive where there is an addition.
  function choose() {
    if (chosen) return;
    const add = (ask.right?.add || ask.left?.add) && shop.packages.some((pack) => pack.table.kind === "progressive");
    kind.value = add ? "progressive" : "single-vision";
  }

  function reckon() {
    turn += 1;
    best.clear();
    choose();
    if (book.isEmpty(ask)) return arrange();
    const want = wanted();
    if (worker) worker.postMessage({ turn, ask, kind: want.kind, need: want.need });
    else pieces(turn, want);
    ranking.classList.add("reckoning");
    book.tell(at("find-status"), say("list-working"), true);
  }

  // The tools in the address, beside the prescription.
  const KEYS = { family: "shape", mounting: "mount", maker: "maker", kind: "kind", need: "need", a: "a", dbl: "dbl", b: "b", most: "most" };

  // Cards take their height as they come in sight, which must not push out of it what has just got the focus.
  let until = 0;
  document.addEventListener("focusin", () => (until = performance.now() + 500));
  new ResizeObserver(() => {
    if (performance.now() < until) requestAnimationFrame(() => document.activeElement.scrollIntoView({ block: "nearest" }));
  }).observe(document.body);

  function remember(want) {
    const parts = Object.entries(KEYS)
      .filter(([name]) => want[name] !== null && want[name] !== "" && want[name] !== at(`find-${name}`).dataset.usual)
      .filter(([name]) => name !== "kind" || chosen)
      .map(([name, key]) => `${key}=${encodeURIComponent(want[name])}`);
    book.readdress(ask, parts.join("&"));
  }

  function recall() {
    const back = Object.fromEntries(Object.entries(KEYS).map(([name, key]) => [key, name]));
    for (const part of location.hash.replace(/^#/, "").split("&")) {
      const [key, value = ""] = part.split("=", 2);
      if (!(key in back)) continue;
      const box = at(`find-${back[key]}`);
      let text = "";
      try {
        text = decodeURIComponent(value);
      } catch {
        continue;
      }
      if (box.tagName === "SELECT" && [...box.options].every((option) => option.value !== text)) continue;
      box.value = text.slice(0, 40);
      if (box === kind) chosen = true;
    }
  }

  recall();
  tools.addEventListener("submit", (event) => event.preventDefault());
  tools.addEventListener("input", (event) => {
    if (event.target === kind) chosen = true;
    if (["find-kind", "find-need"].includes(event.target.id)) reckon();
    else arrangeSoon();
  });
  tools.addEventListener("reset", () => {
    chosen = false;
    setTimeout(reckon);
  });
  book.onAsk((found) => {
    ask = found;
    reckon();
  });
})();
