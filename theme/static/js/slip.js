// Reads a pasted slip by the rules of the shop's own reader, only stricter: what it does not know is told as unread.
// SPDX-License-Identifier: AGPL-3.0-or-later
(function () {
  "use strict";

  const book = globalThis.bevelbook;
  const { slip } = book;
  const { pieces, word, power, unsigned, positive, axis, distance, magnitude, is, isNumber, signed, whole, eyesOf } = slip;
  const { HARMLESS, ONE, ANY, BASES, POWERS, FIELDS } = slip;
  const MOST_CHARACTERS = 4000;
  const CONTACT = ["bc", "dia", "diam", "curve", "contact", "contacts", "contacto", "lentillas"];
  const SEPARATORS = HARMLESS + "-*>_#";
  const WAY = { in: [1, 0], out: [-1, 0], up: [0, 1], down: [0, -1] };
  const WAYS = [...BASES, ...BASES.map((one) => `${one}?`)];
  const FOLLOWS_EYE = [...FIELDS, "plano", "infinity", ...BASES];
  const OF_EYE = ["sphere", "cylinder", "axis", "x", "plano", "prism", "diopter", "degree", ...BASES, "base"];

  // --- reading: each piece ends in one part of the list, read or unread ---

  function reader(text) {
    let list = pieces(text);
    let at = 0;
    let sides = [];
    let filled = [];
    let spherical = false;
    let lost = false;
    const { say } = book;
    const told = [];
    const given = { right: {}, left: {} };
    const named = new Map();
    const pd = {};
    const once = { add: null, loose: [], day: null };

    const separates = (i, line) =>
      list[i].kind === "break" ? !line : list[i].kind === "symbol" && !list[i].role && SEPARATORS.includes(list[i].plain);
    function next(from, line) {
      let i = from;
      while (i < list.length && separates(i, line)) i += 1;
      return i;
    }
    function peek(ahead = 0, line = false) {
      let i = next(at, line);
      for (let n = ahead; n > 0; n -= 1) i = next(i + 1, line);
      return list[i] && list[i].kind !== "break" ? list[i] : null;
    }
    function skip(line = false) {
      at = next(at, line) + 1;
      return list[at - 1];
    }
    const accept = (...roles) => (is(peek(0, true), ...roles) ? [skip(true)] : []);
    const acceptNumber = (line = false) => (isNumber(peek(0, line)) ? [skip(line)] : []);
    function acceptNothing() {
      const dash = at + (list[at] && ":=".includes(list[at].plain || " ") ? 1 : 0);
      if (list[dash]?.plain !== "-") return accept("none");
      at = dash + 1;
      return [list[dash]];
    }

    function tell(parts, meaning, read = true) {
      const one = { text: text.slice(parts[0].start, parts.at(-1).end), start: parts[0].start, meaning, read };
      told.push(one);
      return one;
    }
    // Behind something that was not understood no number is read by its place alone, until an eye is named again.
    function refuse(parts, why = "slip-bad") {
      lost = true;
      return tell(parts, say(why), false);
    }
    const none = (parts) => tell(parts, say("slip-none"));
    function unread(part, why) {
      part.read = false;
      part.meaning = say(why);
    }
    const whose = (eyes) => say(`slip-${eyes.length > 1 ? "both" : eyes[0]}`);
    const of = (eyes, meaning) => say("slip-of", { eye: whose(eyes), what: meaning });
    const name = (eyes, piece) => eyes.forEach((side) => named.has(side) || named.set(side, piece));

    // A value for these eyes; null: it is there and could not be read.  Twice is once too often.
    function give(eyes, what, value, part, piece) {
      name(eyes, piece);
      for (const side of eyes) {
        const before = given[side][what];
        if (before) {
          before.value = null;
          unread(before.part, "slip-twice");
          unread(part, "slip-twice");
        } else given[side][what] = { value, part, start: piece.start };
      }
    }
    function put(parts, eyes, what, value, words, why = "slip-bad") {
      const part = value === null ? tell(parts, say(why), false) : tell(parts, of(eyes, words()));
      give(eyes, what, value, part, parts[0]);
      return value !== null;
    }

    function begin(piece) {
      sides = eyesOf(piece);
      filled = [];
      spherical = false;
      lost = false;
      if (sides.length === 1 && !is(peek(), "pd", "near pd")) name(sides, piece);
      tell([piece], whose(sides));
    }
    const followsEye = (ahead = 0) => {
      const after = peek(ahead);
      return Boolean(after) && (["number", "bad"].includes(after.kind) || is(after, ...FOLLOWS_EYE));
    };

    // Why a number is no power; what else is not clear of it is not told.
    function whyNot({ plain }) {
      if (/^[+-]?\d{2,3}$/.test(plain)) return "slip-point";
      return unsigned(plain) === null ? "slip-bad" : "slip-sign";
    }
    const unit = (role) => (is(list[at], role) ? [list[at++]] : []);
    function putPower(parts, what) {
      const number = parts.at(-1);
      const value = is(number, "plano") ? 0 : is(number, "dash") ? null : power(number.plain);
      filled.push(what);
      put([...parts, ...unit("diopter")], sides, what, value, () =>
        value === 0 && what === "sphere" ? say("slip-plano") : say(`slip-${what}`, { value: book.power(value) }), whyNot(number));
    }
    function putAxis(parts) {
      const value = axis(parts.at(-1).plain);
      filled.push("axis");
      put([...parts, ...unit("degree")], sides, "axis", value, () => say("slip-axis", { value: String(value).padStart(3, "0") }));
    }
    function putAdd(parts, number, eyes) {
      const value = positive(magnitude(number));
      return put(parts, eyes, "add", value, () => say("slip-add", { value: book.power(value) }));
    }

    function label(piece) {
      const what = piece.role;
      if (sides.length && filled.at(-1) === what) {
        spherical ||= what === "sphere";
        tell([piece], say("slip-label"));
        return;
      }
      const parts = [piece];
      if (sides.length) parts.push(...acceptNumber());
      if (sides.length && parts.length < 2) parts.push(...accept("plano"));
      if (parts.length > 1) {
        putPower(parts, what);
        return;
      }
      if (sides.length && what === "cylinder") parts.push(...acceptNothing());
      if (sides.length && what === "cylinder" && parts.length < 2) parts.push(...accept("sphere"));
      if (parts.length > 1) {
        filled.push("cylinder");
        none(parts);
      } else refuse(parts);
    }

    function axisFirst(piece) {
      const number = sides.length && !(is(piece, "axis") && filled.at(-1) === "axis") ? acceptNumber() : [];
      if (is(piece, "axis") && filled.at(-1) === "axis") tell([piece], say("slip-label"));
      else if (number.length) putAxis([piece, ...number]);
      else {
        const empty = is(piece, "axis") ? acceptNothing() : [];
        if (empty.length) none([piece, ...empty]);
        else refuse([piece]);
      }
    }

    // A number without a label: what it is follows from what the eye has already.
    function slot(piece) {
      const plus = piece.plain[0] === "+";
      if (!filled.includes("sphere")) return "sphere";
      if (!filled.includes("cylinder") && !filled.includes("axis")) {
        const after = peek(0, true);
        if (!spherical || (after && (is(after, "cylinder", "axis", "x") || whole(after)))) return "cylinder";
        return plus ? "add" : "";
      }
      if (!filled.includes("axis") && whole(piece)) return "axis";
      const none = sides.every((side) => !given[side].cylinder || given[side].cylinder.value === 0);
      return plus && (filled.includes("axis") || none) && !filled.includes("add") ? "add" : "";
    }
    function number(piece) {
      const what = sides.length && !lost ? slot(piece) : "";
      if (what === "axis") putAxis([piece]);
      else if (what === "add") {
        filled.push("add");
        putAdd([piece], piece, sides);
      } else if (what) putPower([piece], what);
      else refuse([piece], sides.length ? "slip-bad" : "slip-whose");
    }

    // --- addition ---

    const eyeAhead = () => is(peek(), ...ANY) && isNumber(peek(1)) && peek(1).plain[0] !== "-";
    function second() {
      const [slash, piece, after] = list.slice(at, at + 3);
      if (slash?.plain !== "/" || !isNumber(piece) || piece.plain[0] === "-") return [];
      const value = positive(piece.plain);
      if (is(after, "prism", "pd", "near pd", ...BASES, "base") || value === null || value > 9) return [];
      at += 2;
      return [piece];
    }
    function addPair(first, other, eyes) {
      putAdd(first, first.at(-1), eyes.slice(0, 1));
      putAdd([...other, ...accept("diopter")], other[0], eyes.slice(1));
    }
    function add(piece) {
      let parts = [piece];
      if (eyeAhead()) {
        while (eyeAhead()) {
          const [eye, value] = [skip(), skip()];
          const other = eyesOf(eye).length === 2 ? second() : [];
          if (other.length) addPair([...parts, eye, value], other, eyesOf(eye));
          else putAdd([...parts, eye, value, ...accept("diopter")], value, eyesOf(eye));
          parts = [];
        }
        return;
      }
      const value = acceptNumber();
      const other = value.length ? second() : [];
      if (other.length) addPair([piece, ...value], other, ["right", "left"]);
      else if (value.length) addOnce([piece, ...value, ...accept("diopter")], value[0]);
      else {
        const empty = acceptNothing();
        if (empty.length) none([piece, ...empty]);
        else refuse([piece]);
      }
    }
    function addOnce(parts, piece) {
      const elsewhere = !followsEye(1) || is(peek(1), "pd", "near pd");
      if (elsewhere && is(peek(0, true), "B", "B?")) {
        putAdd([...parts, skip()], piece, ["right", "left"]);
      } else if (!sides.length && !once.add) {
        const value = positive(magnitude(piece));
        if (value === null) refuse(parts);
        else once.add = { value, piece: parts[0], part: tell(parts, of(["right", "left"], say("slip-add", { value: book.power(value) }))) };
      } else {
        filled.push("add");
        if (putAdd(parts, piece, sides.length ? sides : ["right", "left"]) && sides.length === 1) once.loose.push(sides[0]);
      }
    }
    function addBehind(piece) {
      if (!is(peek(0, true), "add") || isNumber(peek(1)) || !/^\+|[.,]/.test(piece.plain)) return false;
      if (sides.length && !sides.some((side) => given[side].sphere)) return false;
      addOnce([piece, skip()], piece);
      return true;
    }
    // At the end: an addition that stands once, behind the second eye, is meant for both.
    function share() {
      const [side] = once.loose;
      const other = side === "right" ? "left" : "right";
      if (once.loose.length !== 1 || !given[side].sphere || !given[other].sphere || given[other].add) return;
      if (given[other].sphere.start >= given[side].sphere.start) return;
      given[other].add = given[side].add;
      given[side].add.part.meaning = of(["right", "left"], say("slip-add", { value: book.power(given[side].add.value) }));
    }

    // --- prism ---

    function termAhead(ahead) {
      const [first, after] = [peek(ahead, true), peek(ahead + 1, true)];
      if (isNumber(first)) return !signed(first) && Boolean(after) && (is(after, ...WAYS, "base", "prism") || after.plain === "@");
      return is(first, ...BASES) && isNumber(after);
    }
    function prism(piece) {
      if (!is(piece, "prism")) baseFirst([piece], sides);
      else if (is(peek(), ...ANY) && termAhead(1)) {
        for (let parts = [piece]; is(peek(), ...ANY) && termAhead(1); parts = []) {
          parts.push(skip());
          terms(parts, eyesOf(parts.at(-1)));
        }
      } else if (termAhead(0) || isNumber(peek(0, true))) terms([piece], sides);
      else {
        const empty = acceptNothing();
        if (empty.length) none([piece, ...empty]);
        else refuse([piece]);
      }
    }
    function prismBehind(piece) {
      if (signed(piece) && !filled.includes("sphere")) return false;
      const base = is(peek(0, true), ...BASES, "base") && !baseBegins();
      if (!base && !isUnit(piece)) return false;
      at -= 1;
      terms([], sides);
      return true;
    }
    function isUnit(piece) {
      const after = peek(0, true);
      if (signed(piece) || !is(after, "prism", "pd")) return false;
      return after.kind === "symbol" ? !isNumber(peek(1, true)) : is(peek(1, true), ...WAYS, "base");
    }
    function baseBegins() {
      const [base, amount, after] = list.slice(at, at + 3);
      return is(base, ...BASES) && isNumber(amount) && !signed(amount) && !is(after, ...WAYS, "base", "prism");
    }
    function terms(first, eyes) {
      let parts = first;
      for (;;) {
        const base = accept(...BASES);
        if (base.length) baseFirst([...parts, ...base], eyes);
        else amountFirst([...parts, ...acceptNumber(true)], eyes);
        parts = is(peek(0, true), "and?") && termAhead(1) ? accept("and?") : [];
        if (!parts.length && !termAhead(0)) return;
      }
    }
    function amountFirst(first, eyes) {
      const amount = first.at(-1);
      const parts = [...first, ...accept("prism")];
      if (is(peek(1, true), ...BASES, "base")) parts.push(...accept("pd"));
      let base = accept(...WAYS);
      if (!base.length) {
        const marked = accept("base", "x");
        parts.push(...marked);
        if (marked.length) base = accept(...WAYS);
        if (marked.length && !base.length) base = acceptNumber(true);
      }
      parts.push(...base);
      if (isNumber(base[0])) parts.push(...accept("degree"));
      givePrism(parts, eyes, unsigned(amount.plain), base[0]);
    }
    function baseFirst(first, eyes) {
      const amount = peek(0, true);
      if (is(first.at(-1), "base") || !isNumber(amount) || signed(amount)) refuse(first);
      else givePrism([...first, skip(true), ...accept("prism")], eyes, unsigned(amount.plain), first.at(-1));
    }
    function givePrism(parts, eyes, amount, base) {
      const angle = isNumber(base) ? Number(base.plain.replace(",", ".")) : null;
      const wrong = angle !== null && (signed(base) || base.plain.length > 12 || angle > 360);
      if (amount === null || (amount && !base) || !eyes.length || wrong) {
        refuse(parts);
        return;
      }
      if (!amount) {
        none(parts);
        return;
      }
      const words = [];
      const part = tell(parts, "");
      for (const side of eyes) {
        const [x, y] = angle === null ? WAY[base.role.replace("?", "")].map((one) => one * amount) : globalThis.bevelKernel.power.components(amount, angle);
        const both = { prism_in: angle === null || side === "right" ? x : -x, prism_up: y };
        for (const [what, value] of Object.entries(both)) {
          if (!value) continue;
          const way = what === "prism_in" ? (value > 0 ? "in" : "out") : value > 0 ? "up" : "down";
          words.push(of(angle === null ? eyes : [side], say(`slip-base-${way}`, { amount: String(Math.round(Math.abs(value) * 100) / 100) })));
          give([side], what, value, part, parts[0]);
        }
      }
      if (part.read) part.meaning = [...new Set(words)].join("; ");
    }

    // --- pupillary distance ---

    const BETWEEN = ["/", ",", "&", "-", "|", "+", "(", ")"];
    const unsignedAhead = () => isNumber(peek(1, true)) && !/^[+-]/.test(magnitude(peek(1, true)));
    const distanceAhead = () => isNumber(peek(1, true)) && distance(peek(1, true)) !== null;
    function distances() {
      const found = [];
      while (found.length < 3 && isNumber(peek(0, true))) {
        if (found.length && !goesOn()) break;
        found.push(skip(true));
        accept("mm");
        if (is(peek(0, true), "and?") && isNumber(peek(1, true))) skip();
      }
      return found;
    }
    function goesOn() {
      const gap = list.slice(at, next(at)).map((piece) => piece.plain);
      const value = distance(peek(0, true));
      return value !== null && gap.every((plain) => BETWEEN.includes(plain)) && (value < 40 || gap.includes("/"));
    }
    function pdFirst(piece) {
      let parts = [piece];
      let near = is(piece, "near pd");
      const kind = accept("near?", "far?");
      if (kind.length) near = is(kind[0], "near?");
      parts.push(...kind);
      if (is(peek(0, true), ...ONE) && unsignedAhead()) {
        while (is(peek(0, true), ...ONE) && (parts.length || distanceAhead())) {
          const [eye, number] = [skip(), skip()];
          const value = distance(number);
          parts.push(eye, number, ...accept("mm"));
          if (value === null || near || value >= 40) refuse(parts);
          else givePd(parts, { [eyesOf(eye)[0]]: value });
          parts = [];
        }
        return;
      }
      const pair = unsignedAhead() ? accept(...ANY) : [];
      const order = pair.length ? eyesOf(pair[0]) : ["right", "left"];
      parts.push(...pair);
      const numbers = distances();
      if (!numbers.length) {
        refuse(parts);
        return;
      }
      readPd(parts, numbers, near, order);
      if (is(peek(0, true), "near?") && isNumber(peek(1, true))) readPd([skip()], distances(), true, order);
    }
    function pdBehind(piece) {
      const before = at;
      accept("mm");
      const numbers = [piece, ...distances()];
      const word = numbers.every((one) => distance(one) !== null) ? accept("pd", "near pd") : [];
      if (!word.length || isNumber(peek(0, true)) || (is(peek(0, true), ...ANY) && distanceAhead())) {
        at = before;
        return false;
      }
      readPd([], numbers, is(word[0], "near pd"), ["right", "left"]);
      return true;
    }
    function readPd(before, numbers, near, order) {
      const values = numbers.map(distance);
      const meant = values.includes(null) ? null : meaning(values, near, order);
      const parts = [...before, ...numbers, list[at - 1]];
      if (meant && (meant.binocular ?? 46) >= 46) givePd(parts, meant);
      else refuse(parts);
    }
    // What numbers of this size mean; null where several meanings are possible.
    function meaning(values, near, order) {
      const [a, b, c] = values;
      const halves = (one, other) => ({ [order[0]]: one, [order[1]]: other });
      const sizes = values.map((value) => (value < 40 ? "h" : "w")).join("");
      if (near) return sizes === "w" || sizes === "hh" ? { near: a + (b ?? 0) } : null;
      if (sizes === "w") return { binocular: a };
      if (sizes === "h") return sides.length === 1 ? { [sides[0]]: a } : null;
      if (sizes === "hh") return halves(a, b);
      if (sizes === "ww") return a * 0.88 <= b && b <= a ? { binocular: a, near: b } : null;
      if (sizes === "whh") return { binocular: a, ...halves(b, c) };
      return sizes === "hhw" ? { binocular: c, ...halves(a, b) } : null;
    }
    function givePd(parts, meant) {
      const words = Object.entries(meant).map(([which, value]) => say(`slip-pd-${which}`, { value }));
      const part = tell(parts, words.join("; "));
      for (const [which, value] of Object.entries(meant)) {
        pd[which] ??= { value, part };
        if (pd[which].value === value) continue;
        unread(pd[which].part, "slip-twice");
        unread(part, "slip-twice");
        pd[which] = { value: null, part };
      }
    }

    // --- tables: cells apart by bars, tabs or spaces ---

    const lineEnd = (from) => {
      let i = from;
      while (i < list.length && list[i].kind !== "break") i += 1;
      return i;
    };
    function rowStart(from) {
      let i = from;
      while (i < list.length && (list[i].kind === "break" || "|=-+_:".includes(list[i].plain || " "))) i += 1;
      return is(list[i], ...ANY) ? i : null;
    }
    function table() {
      if (at && list[at - 1].kind !== "break") return false;
      const end = lineEnd(at);
      const line = list.slice(at, end);
      if (new Set(line.map((piece) => piece.role).filter((one) => POWERS.includes(one))).size < 2) return false;
      const roles = line.map((piece) => piece.role).filter((one) => FIELDS.includes(one));
      if (new Set(roles).size < roles.length || line.some((piece) => is(piece, "R", "L", "B"))) return false;
      let row = rowStart(end);
      if (line.some((piece) => isNumber(piece) || piece.kind === "date") || row === null) return false;
      if (line.some((piece) => piece.kind === "bad")) {
        at = end;
        refuse(line);
        return true;
      }
      const cells = slip.tables(text)(line);
      tell(line, say("slip-table"));
      while (row !== null) {
        at = lineEnd(row);
        const parts = list.slice(row, at);
        begin(parts[0]);
        const found = cells(parts);
        if (found) readCells(found);
        else give(sides, "sphere", null, refuse(parts), parts[0]);
        row = rowStart(at);
      }
      return true;
    }
    // A base in a column of its own belongs to the prism before it.
    function readCells(cells) {
      const merged = [];
      for (const cell of cells) {
        const before = merged.at(-1);
        if (cell.role === "base" && before?.role === "prism") before.parts = [...before.parts, ...cell.parts];
        else merged.push(cell);
      }
      const [all, there, ds] = [list, at, spherical];
      for (const cell of merged) {
        [list, at, spherical] = [cell.parts, 0, false];
        if (peek()) readCell(cell.role);
      }
      [list, at, spherical] = [all, there, ds];
    }
    function readCell(what) {
      const empty = accept("none");
      if (empty.length) none(empty);
      else if (what === "sphere" || what === "cylinder") cellPower(what);
      else if (what === "axis" || what === "x") {
        const parts = accept("x", "axis");
        parts.push(...acceptNumber());
        if (isNumber(parts.at(-1))) putAxis(parts);
        else if (parts.length) refuse(parts);
      } else if (what === "add") {
        const value = acceptNumber();
        if (value.length) putAdd([...value, ...accept("diopter")], value[0], sides);
      } else if (what === "prism" && (isNumber(peek()) || is(peek(), ...BASES))) terms([], sides);
      else if (what === "pd" || what === "near pd") {
        const numbers = distances();
        if (numbers.length) readPd([], numbers, what === "near pd", ["right", "left"]);
      }
      while (peek()) refuse([skip()]);
    }
    function cellPower(what) {
      const value = acceptNumber();
      if (!value.length) value.push(...accept("plano"));
      if (value.length) putPower(value, what);
      const mark = accept(value.length && what === "cylinder" ? "cylinder" : value.length || what === "cylinder" ? "sphere" : "nothing");
      if (mark.length) tell(mark, say(value.length ? "slip-label" : "slip-none"));
    }

    // --- the whole ---

    function eye(piece) {
      const before = list[at - 2]?.plain === "(" ? list[at - 3] : list[at - 2];
      const follows = followsEye();
      const behind = isNumber(before) || is(before, ...OF_EYE);
      if (follows) begin(piece);
      else refuse([piece], behind ? "slip-eye-behind" : "slip-bad");
    }
    function day(piece) {
      const [year, month, date] = piece.plain.split(/[-/]/).map(Number);
      const found = new Date(Date.UTC(year, month - 1, date));
      const sound = found.getUTCFullYear() === year && found.getUTCMonth() === month - 1 && year > 999;
      const same = once.day === null || once.day === found.getTime();
      if (sound && same && piece.plain.length > 7) {
        once.day = found.getTime();
        const { months } = book.shop;
        const then = new Date();
        then.setUTCMonth(then.getUTCMonth() - months);
        const late = !lost && found < then; // behind a word that was not understood it may be a birthday
        tell([piece], late ? say("slip-old", { months }) : say("slip-unused")).late = late;
      } else refuse([piece]);
    }
    function read(piece) {
      if (isNumber(piece)) {
        if (!(prismBehind(piece) || pdBehind(piece) || addBehind(piece))) number(piece);
      } else if (is(piece, ...ANY)) eye(piece);
      else if (is(piece, "sphere", "cylinder")) label(piece);
      else if (is(piece, "axis", "x")) axisFirst(piece);
      else if (is(piece, "prism", "base", ...BASES)) prism(piece);
      else if (is(piece, "pd", "near pd")) pdFirst(piece);
      else if (is(piece, "plano")) number(piece);
      else if (is(piece, "add")) add(piece);
      else if (piece.kind === "date") day(piece);
      else if (piece.kind === "word" && !piece.role) tell([piece], say("slip-unused"));
      else if (is(piece, "none")) {
        const what = accept("add", "prism", "cylinder", "pd");
        if (what.length) none([piece, ...what]);
        else refuse([piece]);
      } else if (piece.kind !== "break" && !(piece.kind === "symbol" && !piece.role && SEPARATORS.includes(piece.plain))) refuse([piece]);
    }
    function eyeOf(side) {
      const one = given[side];
      if (!one.sphere) {
        const piece = named.get(side);
        one.sphere = { value: null, part: tell([piece], say("slip-no-sphere"), false) };
      }
      const value = (what, empty) => (one[what] ? one[what].value : empty);
      if (one.axis && !one.cylinder) {
        unread(one.axis.part, "slip-axis-alone");
        one.cylinder = { value: null, part: one.axis.part };
      }
      const cylinder = value("cylinder", 0);
      if (cylinder && !one.axis) unread(one.cylinder.part, "slip-axis-missing");
      const found = { sphere: one.sphere.value, cylinder, axis: cylinder === 0 ? 180 : value("axis", null), add: value("add", 0) };
      return { ...found, prism_in: value("prism_in", 0), prism_up: value("prism_up", 0) };
    }

    function all() {
      while (at < list.length) if (!table()) read(list[at++]);
      share();
      if (once.add) give(named.size ? [...named.keys()] : ["right", "left"], "add", once.add.value, once.add.part, once.add.piece);
      const ask = book.nothing();
      for (const side of named.keys()) ask[side] = eyeOf(side);
      if (named.size) for (const which of Object.keys(ask.pd)) ask.pd[which] = pd[which]?.value ?? null;
      return { ask, ...listed(told) };
    }
    // Words of contact lenses, or a base curve with a diameter: 8.6/14.2
    const between = (piece, least, most) => isNumber(piece) && !signed(piece) && Number(piece.plain.replace(",", ".")) >= least && Number(piece.plain.replace(",", ".")) <= most;
    const curve = (piece, i) => between(piece, 7.5, 9.5) && between(list[list[i + 1]?.plain === "/" ? i + 2 : i + 1], 13, 15.5);
    const wears = list.filter((piece, i) => CONTACT.includes(word(piece)) || curve(piece, i));
    return wears.length ? contact(wears, text) : all();
  }

  function listed(told) {
    const parts = told.sort((one, other) => one.start - other.start || 0);
    return { pieces: parts, unread: parts.filter((part) => !part.read).map((part) => part.text) };
  }
  // A contact lens lies on the eye: its power is another, and base curve and diameter are nothing for glasses.
  function contact(wears, text) {
    const told = wears.map((piece) => ({ text: text.slice(piece.start, piece.end), start: piece.start, meaning: book.say("slip-contact"), read: false }));
    return { ask: book.nothing(), ...listed(told) };
  }
  function refused(text, why) {
    return { ask: book.nothing(), ...listed([{ text: `${text.slice(0, 20)}\u2026`, start: 0, meaning: book.say(why), read: false }]) };
  }

  book.readSlip = (text) => (text.length > MOST_CHARACTERS ? refused(text, "slip-too-long") : reader(text));
})();
