// Reads a pasted slip by the rules of the shop's own reader, only stricter: what it does not know is told as unread.
// SPDX-License-Identifier: AGPL-3.0-or-later
(function () {
  "use strict";

  const book = globalThis.bevelbook;
  const MOST_CHARACTERS = 4000;
  // What mail programs and telephones make of ordinary signs: one character for one, so that places stay true.
  const ALIKE = {
    "-": "\u2212\u2013\u2014\u2010\u2011\u2012\ufe63\uff0d", "+": "\uff0b\ufb29", x: "\u00d7\u2715\u2716\u2573\u2a2f",
    "\u00b0": "\u00ba\u02da", "^": "\u0394\u2206\u25b3", " ": "\u00a0\u2007\u2008\u2009\u200a\u200b\u202f\u2060\u3000\ufeff",
  };
  const PLAIN = new Map(Object.entries(ALIKE).flatMap(([plain, all]) => [...all].map((one) => [one, plain])));
  // role: how it is written; a role that ends in "?" counts only where the neighbors agree (practice)
  const WRITTEN = {
    R: "od;right eye;r eye", L: "os;left eye;l eye", B: "ou;both eyes", "R?": "r;re;right", "L?": "l;le;left", "B?": "both",
    sphere: "sph;sphere;spherical;ds", cylinder: "cyl;cylinder;dc", axis: "axis;ax;axe", x: "x;@",
    add: "add;addition;near add;near addition", prism: "prism;prisms;^", base: "base",
    in: "bi;base in", out: "bo;base out", up: "bu;base up", down: "bd;base down", "in?": "in", "out?": "out", "up?": "up",
    "down?": "down", pd: "pd;pds;ipd;dpd;pupillary distance;distance pd;far pd;mono pd;mono pds;monocular pd;monocular pds",
    "near pd": "npd;near pd;pd near;near pupillary distance", "near?": "near", "far?": "distance;far", plano: "plano;pl;plo",
    none: "none;nil;no;without", diopter: "d;dpt;dptr;diopter;diopters", mm: "mm", degree: "deg;degree;degrees;\u00b0",
    minus: "minus", plus: "plus", "and?": "and", "is?": "is;of", "a?": "a",
    "": "rx;my;date;dated;prescription;glasses;eye",
  };
  const ROLES = new Map(Object.entries(WRITTEN).flatMap(([role, all]) => all.split(";").map((one) => [one, role])));
  const CONTACT = ["bc", "dia", "diam", "curve", "contact", "contacts"];
  const PIECE = new RegExp([
    "(?<break>\\r\\n|\\r|\\n)", "(?<space>[ \\t]+)",
    "(?<date>(?<![\\d.,+/-])(?:\\d{4}([-/])\\d\\d?\\4\\d\\d?(?!\\d)|\\d\\d?([-/.])\\d\\d?\\5(?:\\d{4}|\\d\\d)(?!\\d)" +
      "|(?:20\\/[1-9]\\d\\d?|6\\/\\d\\d?)(?![\\d.,/])))",
    "(?<bad>[+-]?(?:\\d+\\.\\d+\\.[\\d.]*\\d|\\d+,\\d+\\.\\d+))", "(?<number>[+-]?(?:\\d+(?:[.,]\\d+)?|(?<!\\d)\\.\\d+)|[+-],\\d+)",
    "(?<word>(?:[dD][cCsS]|[cC][yY][lL]|[dD])(?=[xX] ?\\d)|[A-Za-z](?:\\.[A-Za-z]){1,3}(?![A-Za-z])\\.?" +
      "|[A-Za-z]+(?:['\\u2019][A-Za-z]+)*)",
    "(?<symbol>[^])",
  ].join("|"), "uy");
  // These may touch a number without changing it; the others may only stand apart.
  const HARMLESS = "/,;:|=()[]{}.\"'!&\u2022\u00b7\u201c\u201d\u2018\u2019\u00ab\u00bb";
  const SEPARATORS = HARMLESS + "-*>_#";
  const EYES = { R: ["right"], L: ["left"], B: ["right", "left"], "B-LR": ["left", "right"] };
  const ONE = ["R", "L", "R?", "L?"];
  const ANY = [...ONE, "B", "B?", "B-LR", "B-LR?"];
  const BASES = ["in", "out", "up", "down"];
  const WAY = { in: [1, 0], out: [-1, 0], up: [0, 1], down: [0, -1] };
  const WAYS = [...BASES, ...BASES.map((one) => `${one}?`)];
  const POWERS = ["sphere", "cylinder", "axis", "x", "add"];
  const FIELDS = [...POWERS, "prism", "base", "pd", "near pd"];
  const LABELS = ["sphere", "cylinder", "axis", "add", "pd", "near pd", "prism"];
  const FOLLOWS_EYE = [...FIELDS, "plano", ...BASES];
  const OF_EYE = ["sphere", "cylinder", "axis", "x", "plano", "prism", "diopter", "degree", ...BASES, "base"];
  const is = (piece, ...roles) => Boolean(piece) && roles.includes(piece.role);
  const isNumber = (piece) => piece?.kind === "number";
  const signed = (piece) => "+-".includes(piece.plain[0]);
  const whole = (piece) => /^\d+$/.test(piece.plain);
  const eyesOf = (piece) => EYES[piece.role.replace("?", "")];
  const touch = (one, other) => one && other && one.end === other.start;

  // --- pieces and their roles ---

  function pieces(text) {
    const plain = [...text].map((one) => PLAIN.get(one) ?? one).join("");
    const found = [];
    let line = 0;
    for (PIECE.lastIndex = 0; PIECE.lastIndex < plain.length;) {
      const start = PIECE.lastIndex;
      const { groups } = PIECE.exec(plain);
      const kind = Object.keys(groups).find((name) => groups[name] !== undefined);
      if (kind !== "space") found.push({ kind, plain: groups[kind], start, end: PIECE.lastIndex, line, role: "" });
      if (kind === "break") line = PIECE.lastIndex;
    }
    return spoilt(labels(pairs(signs(phrases(found)))));
  }

  const join = (parts, role, plain = "") => ({ ...parts.at(-1), start: parts[0].start, line: parts[0].line, role, plain });
  const word = (piece) => piece.plain.toLowerCase().replaceAll(".", "").replaceAll("\u2019", "'");

  function phrases(list) {
    const found = [];
    for (let at = 0; at < list.length;) {
      const run = [];
      for (let next = at; list[next]?.kind === "word" && run.length < 3;) {
        run.push(next);
        const hyphen = list[next + 1]?.plain === "-" && touch(list[next], list[next + 1]) && touch(list[next + 1], list[next + 2]);
        next += hyphen ? 2 : 1;
      }
      const name = (count) => run.slice(0, count).map((i) => word(list[i])).join(" ");
      let count = run.length;
      while (count > 0 && !ROLES.has(name(count))) count -= 1;
      const used = count ? run[count - 1] - at + 1 : 1;
      const role = count ? ROLES.get(name(count)) : (ROLES.get(list[at].plain) ?? "");
      const known = count || list[at].kind !== "word";
      found.push(used > 1 ? join(list.slice(at, at + used), role) : { ...list[at], role, kind: known ? list[at].kind : "bad" });
      at += used;
    }
    return found;
  }

  // A sign apart from its number joins it.  Role "dash": it may as well be a dash and must not count as a minus.
  function signs(list) {
    const found = [];
    for (let at = 0; at < list.length; at += 1) {
      const [here, after, before] = [list[at], list[at + 1], found.at(-1)];
      const loose = here.kind === "symbol" && "+-".includes(here.plain);
      const sign = loose ? here.plain : ({ minus: "-", plus: "+" }[here.role] ?? "");
      if (sign && isNumber(after) && !signed(after)) {
        const minus = isNumber(before) || (before?.kind === "symbol" && ":=/|(,;".includes(before.plain));
        found.push(join([here, after], loose && sign === "-" && !minus ? "dash" : "apart", sign + after.plain));
        at += 1;
      } else found.push(here);
    }
    return found;
  }

  function pairs(list) {
    const found = [];
    for (let at = 0; at < list.length; at += 1) {
      const trio = list.slice(at, at + 3);
      const [one, link, other] = trio;
      const opposite = { R: "L", L: "R" }[one.role.replace("?", "")];
      if (other && opposite && other.role.replace("?", "") === opposite && ("/&+".includes(link.plain || " ") || is(link, "and?"))) {
        found.push(join(trio, (opposite === "L" ? "B" : "B-LR") + (one.role.endsWith("?") ? "?" : "")));
        at += 2;
      } else found.push(one);
    }
    return found;
  }

  // "PD is 63": the verb belongs to the label.  "A 90": an axis.
  function labels(list) {
    const found = [];
    list.forEach((piece, at) => {
      const after = list[at + 1];
      const label = found.at(-1);
      if (is(piece, "is?") && isNumber(after) && is(label, ...LABELS)) found.push(join([found.pop(), piece], label.role));
      else found.push(is(piece, "a?") && after && whole(after) ? { ...piece, role: "x" } : piece);
    });
    return found;
  }

  // A number that touches a strange sign or a word without meaning cannot be read, and both are one.
  function spoilt(list) {
    const strange = (piece) => !piece.role && (["word", "bad"].includes(piece.kind) || (piece.kind === "symbol" && !HARMLESS.includes(piece.plain)));
    const found = [];
    for (const piece of list) {
      const before = found.at(-1);
      const number = isNumber(piece) || isNumber(before);
      if (touch(before, piece) && number && (strange(before) || strange(piece))) found.push({ ...join([found.pop(), piece], ""), kind: "bad" });
      else found.push(piece);
    }
    return found;
  }

  // --- written numbers: the value, or null where the number cannot be meant ---

  const EIGHTHS = { 12: 0.125, 13: 0.125, 37: 0.375, 38: 0.375, 62: 0.625, 63: 0.625, 87: 0.875, 88: 0.875 };

  function power(plain, needsSign = true) {
    const said = plain.replace(",", ".");
    const digits = said.replace(/^[+-]/, "");
    const [first, part = ""] = digits.split(".");
    if (said.length > 12 || part.replace(/0+$/, "").length > 3) return null;
    if (!digits.includes(".") && (digits.length > 2 || /^0\d/.test(digits) || Number(digits) > 20)) return null;
    const eighth = EIGHTHS[part.slice(0, 2) + part.slice(2).replace(/0+$/, "")];
    const value = eighth === undefined ? Number(digits) : Number(first) + eighth;
    if (value >= 100 || (needsSign && value && digits === said)) return null;
    return said[0] === "-" && value ? -value : value;
  }
  const unsigned = (plain) => (/^[+-]/.test(plain) ? null : power(plain, false));
  const positive = (plain) => {
    const value = power(plain, false);
    return value !== null && value < 0 ? null : value;
  };
  function axis(plain) {
    const [first, part = ""] = plain.replace(",", ".").split(".");
    if (/^[+-]/.test(plain) || /[1-9]/.test(part) || first.length > 4 || Number(first) > 180) return null;
    return Number(first) || 180;
  }
  function distance(piece) {
    const said = magnitude(piece).replace(",", ".");
    const part = (said.split(".")[1] ?? "").replace(/0+$/, "");
    const sound = said.length <= 12 && !/^[+-]/.test(said) && Number(said) >= 20 && Number(said) <= 90;
    return sound && (part.length < 2 || part === "25" || part === "75") ? Number(said) : null;
  }
  // A dash before a number where a minus makes no sense: "PD - 63".
  const magnitude = (piece) => (is(piece, "dash", "apart") && piece.plain[0] === "-" ? piece.plain.slice(1) : piece.plain);

  // --- reading: each piece ends in one part of the list, read or unread ---

  function reader(text) {
    let list = pieces(text);
    let at = 0;
    let sides = [];
    let filled = [];
    let spherical = false;
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
    const refuse = (parts, why = "slip-bad") => tell(parts, say(why), false);
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
    function put(parts, eyes, what, value, words) {
      const part = value === null ? refuse(parts) : tell(parts, of(eyes, words()));
      give(eyes, what, value, part, parts[0]);
      return value !== null;
    }

    function begin(piece) {
      sides = eyesOf(piece);
      filled = [];
      spherical = false;
      if (sides.length === 1 && !is(peek(), "pd", "near pd")) name(sides, piece);
      tell([piece], whose(sides));
    }
    const followsEye = (ahead = 0) => {
      const after = peek(ahead);
      return Boolean(after) && (["number", "bad"].includes(after.kind) || is(after, ...FOLLOWS_EYE));
    };

    const unit = (role) => (is(list[at], role) ? [list[at++]] : []);
    function putPower(parts, what) {
      const number = parts.at(-1);
      const value = is(number, "plano") ? 0 : is(number, "dash") ? null : power(number.plain);
      filled.push(what);
      put([...parts, ...unit("diopter")], sides, what, value, () =>
        value === 0 && what === "sphere" ? say("slip-plano") : say(`slip-${what}`, { value: book.power(value) }));
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
      const what = sides.length ? slot(piece) : "";
      if (what === "axis") putAxis([piece]);
      else if (what === "add") {
        filled.push("add");
        putAdd([piece], piece, sides);
      } else if (what) putPower([piece], what);
      else refuse([piece]);
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
    const lineOf = (piece) => text.slice(piece.line).split(/[\r\n]/, 1)[0];
    const role = (parts) => parts.find((piece) => FIELDS.includes(piece.role))?.role ?? "";
    const places = (piece) => [piece.start - piece.line, piece.end - piece.line];

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
      const whole = lineOf(line[0]);
      const divider = whole.includes("|") ? "|" : whole.includes("\t") ? "\t" : "";
      const cells = divider ? divided(divider, line) : line.filter((piece) => piece.kind === "word").map((piece) => [piece]);
      let columns = cells.map((parts) => ({ role: role(parts), place: parts.length ? places(parts[0]) : null }));
      if (columns[0]?.role === "") columns = columns.slice(1);
      tell(line, say("slip-table"));
      while (row !== null) {
        at = lineEnd(row);
        const parts = list.slice(row, at);
        begin(parts[0]);
        const found = divider ? underDivided(divider, columns, parts) : underSpaced(columns, parts);
        if (found) readCells(found);
        else give(sides, "sphere", null, refuse(parts), parts[0]);
        row = rowStart(at);
      }
      return true;
    }
    function divided(divider, parts) {
      const whole = lineOf(parts[0]);
      let from = parts[0].line;
      const cells = whole.split(divider).map((cell) => {
        const inside = parts.filter((piece) => piece.start >= from && piece.start < from + cell.length);
        from += cell.length + 1;
        return inside;
      });
      if (divider === "|" && !cells[0].length) cells.shift();
      if (divider === "|" && cells.length && !cells.at(-1).length && whole.trimEnd().endsWith("|")) cells.pop();
      return cells;
    }
    function underDivided(divider, columns, parts) {
      const [eye, ...values] = divided(divider, parts);
      if (eye.slice(1).some((piece) => piece.kind !== "symbol")) return null;
      if (values.slice(columns.length).some((cell) => cell.length)) return null;
      return columns.slice(0, values.length).map((column, i) => ({ role: column.role, parts: values[i] }));
    }
    function underSpaced(all, parts) {
      let from = 1;
      while (from < parts.length && ":.)".includes(parts[from].plain || " ")) from += 1;
      const values = parts.slice(from);
      const wide = values.some((piece, i) => i > 0 && piece.start - values[i - 1].end > 1);
      const groups = wide ? apart(values) : byValue(values);
      const columns = groups.length < all.length && !wide ? narrow(all, groups) : all;
      if (groups.length === columns.length) return columns.map((column, i) => ({ role: column.role, parts: groups[i] }));
      return wide && groups.length < columns.length ? under(columns, groups) : null;
    }
    function apart(values) {
      const groups = [];
      values.forEach((piece, i) => {
        if (i > 0 && piece.start - values[i - 1].end <= 1) groups.at(-1).push(piece);
        else groups.push([piece]);
      });
      return groups;
    }
    function byValue(values) {
      const groups = [];
      for (const piece of values) {
        const begins = isNumber(piece) || piece.kind === "bad" || is(piece, "plano", "sphere", "none", "x") || piece.plain === "-";
        const last = groups.at(-1)?.at(-1);
        const joins = last && (is(last, "x") || (piece.plain === "-" && last.plain === "-"));
        if (!last || (begins && !joins)) groups.push([piece]);
        else groups.at(-1).push(piece);
      }
      return groups;
    }
    function narrow(columns, groups) {
      const roles = columns.map((column) => column.role);
      const count = groups.length;
      if (roles.includes("base") && count === columns.length - 1) return columns.filter((column) => column.role !== "base");
      if (roles.slice(0, 3).join() !== "sphere,cylinder,axis") return columns;
      if ((count === 1 || count === 3) && !groups.some((group) => is(group[0], "sphere"))) return columns.slice(0, count);
      if (count > 1 && is(groups[1][0], "sphere") && (count === 2 || count === columns.length - 1)) {
        return [...columns.slice(0, 2), ...columns.slice(3)].slice(0, count);
      }
      return columns;
    }
    function under(columns, groups) {
      let last = -1;
      const cells = [];
      for (const group of groups) {
        const [start, end] = [places(group[0])[0], places(group.at(-1))[1]];
        const found = columns.flatMap((column, i) => (column.place[0] < end && start < column.place[1] ? [i] : []));
        if (found.length !== 1 || found[0] <= last) return null;
        [last] = found;
        cells.push({ role: columns[last].role, parts: group });
      }
      return cells;
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
        tell([piece], say("slip-unused"));
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
    const wears = list.filter((piece) => CONTACT.includes(word(piece)));
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
