// The pieces of a pasted slip, each with its place and its role, and what a written number can mean.
// SPDX-License-Identifier: AGPL-3.0-or-later
(function () {
  "use strict";

  const book = globalThis.bevelbook;
  // What mail programs and telephones make of ordinary signs: one character for one, so that places stay true.
  const ALIKE = {
    "-": "\u2212\u2013\u2014\u2010\u2011\u2012\ufe63\uff0d", "+": "\uff0b\ufb29", x: "\u00d7\u2715\u2716\u2573\u2a2f",
    "\u00b0": "\u00ba\u02da", "^": "\u0394\u2206\u25b3", " ": "\u00a0\u2007\u2008\u2009\u200a\u200b\u202f\u2060\u3000\ufeff",
  };
  const PLAIN = new Map(Object.entries(ALIKE).flatMap(([plain, all]) => [...all].map((one) => [one, plain])));
  // role: how it is written; a role that ends in "?" counts only where the neighbors agree (practice)
  const WRITTEN = {
    R: "od;right eye;r eye", L: "os;left eye;l eye", B: "ou;both eyes", "R?": "r;re;right", "L?": "l;le;left;og;oi", "B?": "both",
    sphere: "sph;sphere;spherical;ds", cylinder: "cyl;cylinder;dc", axis: "axis;ax;axe", x: "x;@",
    add: "add;addition;near add;near addition", prism: "prism;prisms;^", base: "base",
    in: "bi;base in", out: "bo;base out", up: "bu;base up", down: "bd;base down", "in?": "in", "out?": "out", "up?": "up",
    "down?": "down", pd: "pd;pds;ipd;dpd;pupillary distance;distance pd;far pd;mono pd;mono pds;monocular pd;monocular pds",
    "near pd": "npd;near pd;pd near;near pupillary distance", "near?": "near", "far?": "distance;far", plano: "plano;pl;plo;sph plan;sphere plan",
    none: "none;nil;no;without", diopter: "d;dpt;dptr;diopter;diopters", mm: "mm", degree: "deg;degree;degrees;\u00b0",
    minus: "minus", plus: "plus", infinity: "\u221e", "and?": "and", "is?": "is;of", "a?": "a",
    "": "rx;my;date;dated;prescription;glasses;eye",
  };
  // The same in Spanish (practice)
  const SPANISH = {
    R: "ojo derecho", L: "ojo izquierdo", B: "ambos ojos;ao", "R?": "derecho;dcho", "L?": "izquierdo;izq;izdo",
    "B?": "ambos", sphere: "esf;esfera;esf\u00e9rica;esferica", cylinder: "cil;cilindro;cil\u00edndrica;cilindrica",
    axis: "eje", add: "ad;adici\u00f3n;adicion", prism: "prisma;prismas", in: "base interna;base nasal",
    out: "base externa;base temporal", up: "base superior", down: "base inferior", "in?": "interna;interno",
    "out?": "externa;externo", "up?": "superior", "down?": "inferior",
    pd: "dip;dnp;distancia interpupilar;distancia nasopupilar;distancias nasopupilares;dip de lejos;dip lejos",
    "near pd": "dip de cerca;dip cerca", "near?": "cerca", "far?": "lejos", plano: "neutro;neutra",
    none: "ninguno;ninguna;sin", diopter: "dioptr\u00eda;dioptr\u00edas;dioptria;dioptrias", mm: "mil\u00edmetros;milimetros",
    degree: "grado;grados", minus: "menos", plus: "m\u00e1s;mas", "and?": "y", "is?": "es;de",
    "": "receta;graduaci\u00f3n;graduacion;gafas;fecha",
  };
  const vocabulary = [...Object.entries(SPANISH), ...Object.entries(WRITTEN)];
  const ROLES = new Map(vocabulary.flatMap(([role, all]) => all.split(";").map((one) => [one, role])));
  const PIECE = new RegExp([
    "(?<break>\\r\\n|\\r|\\n)", "(?<space>[ \\t]+)",
    "(?<date>(?<![\\d.,+/-])(?:\\d{4}([-/])\\d\\d?\\4\\d\\d?(?!\\d)|\\d\\d?([-/.])\\d\\d?\\5(?:\\d{4}|\\d\\d)(?!\\d)" +
      "|(?:20\\/[1-9]\\d\\d?|6\\/\\d\\d?)(?![\\d.,/])))",
    "(?<bad>[+-]?(?:\\d+\\.\\d+\\.[\\d.]*\\d|\\d+,\\d+\\.\\d+))", "(?<number>[+-]?(?:\\d+(?:[.,]\\d+)?|(?<!\\d)\\.\\d+)|[+-],\\d+)",
    "(?<word>(?:[dD][cCsS]|[cC][yY][lL]|[dD])(?=[xX] ?\\d)|\\p{L}(?:\\.\\p{L}){1,3}(?!\\p{L})\\.?" +
      "|\\p{L}+(?:['\\u2019]\\p{L}+)*)",
    "(?<symbol>[^])",
  ].join("|"), "uy");
  // These may touch a number without changing it; the others may only stand apart.
  const HARMLESS = "/,;:|=()[]{}.\"'!&\u2022\u00b7\u201c\u201d\u2018\u2019\u00ab\u00bb";
  const EYES = { R: ["right"], L: ["left"], B: ["right", "left"], "B-LR": ["left", "right"] };
  const ONE = ["R", "L", "R?", "L?"];
  const ANY = [...ONE, "B", "B?", "B-LR", "B-LR?"];
  const BASES = ["in", "out", "up", "down"];
  const POWERS = ["sphere", "cylinder", "axis", "x", "add"];
  const FIELDS = [...POWERS, "prism", "base", "pd", "near pd"];
  const LABELS = ["sphere", "cylinder", "axis", "add", "pd", "near pd", "prism"];
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

  book.slip = {
    pieces, word, power, unsigned, positive, axis, distance, magnitude, is, isNumber, signed, whole, eyesOf,
    HARMLESS, ONE, ANY, BASES, POWERS, FIELDS,
  };
})();
