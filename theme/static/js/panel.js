// The prescription panel: fields that answer in words, steps by the arrow keys, and one prescription for the whole site.
// SPDX-License-Identifier: AGPL-3.0-or-later
(function () {
  "use strict";

  const book = globalThis.bevelbook;
  const { make, say, local, mm, power, soon, FIELDS } = book;
  const panel = document.getElementById("rx");
  const listeners = [];
  let ask = book.start();

  book.ask = () => ask;
  book.onAsk = (listener) => {
    listeners.push(listener);
    listener(ask, true);
  };
  book.carry(book.ask);
  document.documentElement.classList.toggle("asked", !book.isEmpty(ask));
  if (!panel) return;

  const SIDES = ["right", "left"];
  const BOTH = { least: 46, most: 90 }; // a PD that is no half
  const POWERS = ["sphere", "cylinder", "add"];
  const at = (id) => document.getElementById(id);
  const input = (side, name) => at(`rx-${side}-${name}`);
  const base = (side, name) => panel.querySelector(`select[data-side="${side}"][data-base="${name}"]`);
  const inputs = () => panel.querySelectorAll("input[data-field]");

  // A value as it is written in its field.
  function shown(name, value) {
    if (value === null) return "";
    if (POWERS.includes(name)) return power(value);
    return name === "axis" ? String(value).padStart(3, "0") : local(value);
  }

  function mark(box, fault) {
    if (fault) box.setAttribute("aria-invalid", "true");
    else box.removeAttribute("aria-invalid");
  }

  // One row: its eye, its half of the PD, its height; faults are marked, and told below the row.
  function readRow(side) {
    const values = {};
    const told = [];
    let faults = 0;
    for (const name of Object.keys(FIELDS)) {
      const box = input(side, name);
      const found = readField(side, name, box);
      values[name] = found.value ?? null;
      mark(box, found.fault);
      if (found.fault) faults += 1;
      if (found.fault || found.note) told.push(found.fault ?? found.note);
    }
    const { eye, faults: missing, note: doubt } = book.eye(values);
    if (!faults) {
      for (const [name, words] of Object.entries(missing)) {
        mark(input(side, name), words);
        told.push(words);
        faults += 1;
      }
    }
    if (doubt) told.push(doubt);
    return { eye, faults, told, pd: values.pd, height: values.height };
  }

  // What is half typed is neither wrong nor doubtful yet: what has to be said of it is said once the typing rests.
  const resting = {};
  function atRest(what, work) {
    clearTimeout(resting[what]);
    if (document.activeElement?.dataset?.field) resting[what] = setTimeout(work, 600);
    else work();
  }

  function note(side, text) {
    const place = at(`rx-note-${side}`);
    clearTimeout(resting[side]);
    if (text === place.textContent) return;
    if (text) atRest(side, () => book.tell(place, text));
    else book.tell(place, "");
  }

  function doubt(doubts) {
    if (!doubts.length && !at("rx-doubts").childElementCount) return;
    at("rx-doubts").replaceChildren(...doubts.map((words) => make("li", {}, words)));
    book.hear(at("rx-doubts"), doubts.join(" "));
  }

  // A PD for both eyes may stand in one of the two fields.
  function readField(side, name, box) {
    const found = book.field(name, box.value);
    if (name === "pd" && found.fault) {
      const both = book.number(box.value);
      const alone = input(side === "right" ? "left" : "right", "pd").value.trim() === "";
      if (alone && both !== null && both >= BOTH.least && both <= BOTH.most) return { value: both, ...BOTH };
      const halves = box.value.split("/").map((half) => book.field(name, half).value ?? null);
      if (alone && halves.length === 2 && !halves.includes(null)) return { value: halves };
    }
    if (name.startsWith("prism") && found.value) return { value: found.value * Number(base(side, name).value) };
    return found;
  }

  function readPd(right, left) {
    const halves = right ?? left;
    if (Array.isArray(halves)) return { binocular: null, right: halves[0], left: halves[1] };
    if (right !== null && right > FIELDS.pd.most) return { binocular: right, right: null, left: null };
    if (left !== null && left > FIELDS.pd.most) return { binocular: left, right: null, left: null };
    return { binocular: null, right, left };
  }

  // `soft`: keys may follow at once, so nobody may take long in one go.
  function read(soft) {
    const [right, left] = SIDES.map(readRow);
    const faults = right.faults + left.faults;
    for (const [side, mine, other] of [["right", right, left], ["left", left, right]]) {
      if (!faults && !mine.eye && other.eye) mine.told.push(say("eye-missing"));
      at(`rx-note-${side}`).classList.toggle("doubt", !mine.faults);
      note(side, [...new Set(mine.told)].join(". "));
    }
    at("rx-read").classList.toggle("wrong", faults > 0);
    // What was answered before stays in its place, but not as an answer to what is being typed.
    document.documentElement.classList.toggle("waiting", faults > 0);
    for (const place of [at("live"), at("ranking")]) if (place) place.inert = faults > 0;
    if (faults) {
      atRest("doubts", () => doubt([]));
      book.news.clear(); // what an earlier key was answered is not heard beside this
      book.tell(at("rx-read"), say("panel-faults", { count: faults }));
      return;
    }
    const found = book.nothing();
    found.right = right.eye;
    found.left = left.eye;
    found.pd = readPd(right.pd, left.pd);
    found.height = { right: right.height, left: left.height };
    found.child = at("rx-child").checked;
    found.region = at("rx-region").selectedIndex > 0 ? at("rx-region").value : "";
    tell(found, soft);
  }

  function eyeWords(eye) {
    if (!eye) return say("not-glazed");
    const parts = [power(eye.sphere)];
    parts.push(eye.cylinder ? `${power(eye.cylinder)} \u00d7 ${String(eye.axis).padStart(3, "0")}` : say("eye-sphere"));
    if (eye.add) parts.push(say("eye-add", { power: power(eye.add) }));
    const prism = (value) => ({ amount: mm(Math.abs(value), 2) });
    if (eye.prism_in) parts.push(say(eye.prism_in > 0 ? "eye-in" : "eye-out", prism(eye.prism_in)));
    if (eye.prism_up) parts.push(say(eye.prism_up > 0 ? "eye-up" : "eye-down", prism(eye.prism_up)));
    return parts.join(" ");
  }

  function askWords(found) {
    const { pd } = found;
    const halves = pd.right !== null || pd.left !== null ? `${local(pd.right ?? "?")}/${local(pd.left ?? "?")}` : "";
    const both = pd.binocular !== null ? local(pd.binocular) : halves;
    const eyes = SIDES.map((side) => `${say(`short-${side}`)} ${eyeWords(found[side])}`);
    return [...eyes, ...(both ? [say("pd-of", { text: both })] : [])].join(" / ");
  }
  book.askWords = askWords;

  const reading = () => (book.isEmpty(ask) ? say("panel-empty") : say("panel-read", { text: askWords(ask) }));

  function tell(found, soft) {
    ask = found;
    const empty = book.isEmpty(ask);
    const doubts = book.doubts(ask);
    book.tell(at("rx-read"), reading());
    document.documentElement.classList.toggle("asked", !empty);
    atRest("doubts", () => doubt(doubts));
    if (at("rx-keep").checked) book.keep(ask);
    book.readdress(ask, book.others());
    for (const listener of listeners) listener(ask, soft);
  }

  // The fields as a prescription has them.  What is there and could not be read is a question mark, to be mended.
  function show(from = ask) {
    for (const side of SIDES) {
      const eye = from[side];
      for (const name of ["sphere", "cylinder", "axis", "add"]) {
        const none = !eye || (name === "axis" && eye.cylinder === 0) || ((name === "cylinder" || name === "add") && eye[name] === 0);
        input(side, name).value = none ? "" : asked(eye[name], (value) => shown(name, value));
      }
      for (const name of ["prism_in", "prism_up"]) {
        const there = Boolean(eye) && eye[name] !== 0;
        input(side, name).value = there ? asked(eye[name], (value) => local(Math.abs(value))) : "";
        base(side, name).value = there && eye[name] < 0 ? "-1" : "1";
        if (there) panel.querySelector(".rx-prism").open = true;
      }
      const both = from.pd.left === null ? from.pd.binocular : null;
      input(side, "pd").value = shown("pd", side === "right" ? (from.pd.right ?? both) : from.pd.left);
      input(side, "height").value = shown("height", from.height[side]);
    }
    at("rx-child").checked = from.child;
    if (from.region) at("rx-region").value = from.region;
    else at("rx-region").selectedIndex = 0;
    read();
  }
  const asked = (value, words) => (value === null ? "?" : words(value));

  // Both halves of a PD in one field, each into its own.
  function part(box) {
    const halves = readField(box.dataset.side, "pd", box).value;
    if (box.dataset.field === "pd" && Array.isArray(halves)) SIDES.forEach((side, i) => (input(side, "pd").value = shown("pd", halves[i])));
  }

  // Up and down go in the field's own steps, first of all to the next of them; an axis goes round.
  function step(box, way, large) {
    part(box);
    const { side, field: name } = box.dataset;
    const found = name === "pd" ? readField(side, name, box) : book.field(name, box.value);
    const { least, most, step: size } = { ...FIELDS[name], ...found };
    const now = found.value ?? (name === "pd" ? 31.5 - size * way : 0);
    let next = way * size * (Math.floor((way * now) / size) + (large ? 4 : 1));
    if (name === "axis") next = next > 180 ? next - 180 : next < 1 ? next + 180 : next;
    box.value = shown(name, Math.min(most, Math.max(least, next)));
  }

  const readSoon = soon(() => read(true));
  for (const kind of ["input", "change"]) {
    panel.addEventListener(kind, ({ target }) => {
      if (target.id === "rx-keep") kind === "change" && keep();
      else if (target.id !== "rx-slip") readSoon();
    });
  }
  panel.addEventListener("keydown", (event) => {
    const way = { ArrowUp: 1, ArrowDown: -1, PageUp: 1, PageDown: -1 }[event.key];
    if (!way || !event.target.matches?.("input[data-field]") || event.altKey || event.ctrlKey || event.metaKey) return;
    event.preventDefault();
    step(event.target, way, event.key.startsWith("Page"));
    readSoon();
  });
  panel.addEventListener("focusout", (event) => {
    const name = event.target.dataset?.field;
    if (!name) return;
    part(event.target);
    const found = book.field(name, event.target.value);
    if (found.value !== null && found.value !== undefined && !name.startsWith("prism")) {
      event.target.value = shown(name, found.value);
    }
  });
  panel.addEventListener("submit", (event) => event.preventDefault());

  function keep() {
    const box = at("rx-keep");
    const done = book.keep(box.checked ? ask : null);
    if (!done) box.checked = false;
    const said = say(done ? (box.checked ? "kept" : "not-kept") : "cannot-keep");
    book.tell(at("rx-read"), `${reading()}${book.isEmpty(ask) ? "" : "."} ${said}`);
  }

  at("rx-clear").addEventListener("click", () => {
    ask = book.nothing();
    book.clearSlip?.();
    book.keep(null);
    at("rx-keep").checked = false;
    show();
    input("right", "sphere").focus();
  });

  // What another tab erased is not kept by this one.
  addEventListener("storage", () => (at("rx-keep").checked = book.kept()));

  // Another link to this page that says more than a prescription is opened whole.
  addEventListener("hashchange", ({ oldURL }) => {
    const before = book.others(oldURL);
    if (![before, ""].includes(book.others())) return location.reload();
    const there = book.fromText(location.hash);
    // One without a prescription, such as an earlier place of this page, is told what is answered here.
    if ([book.toText(ask), ""].includes(book.toText(there))) return book.readdress(ask, before);
    ask = there;
    show();
  });

  at("rx-keep").checked = book.kept();
  book.showAsk = show;
  if (book.isEmpty(ask)) read();
  else show();
})();
