// What the kernel's JavaScript needs so that it raises where Python raises, or where the two languages would differ.
// SPDX-License-Identifier: AGPL-3.0-or-later
(function ($K) {
  "use strict";

  const isArray = Array.isArray;
  const isWhole = Number.isSafeInteger;

  class Fault extends Error {
    constructor(name, message) {
      super(message);
      this.name = name;
    }
  }

  function fault(name, message) {
    throw new Fault(name, message);
  }

  const kind = (x) => (x === null ? "null" : isArray(x) ? "a list" : typeof x);
  const zero = () => fault("ZeroDivisionError", "division by zero");
  const negative = (x) => fault("ValueError", x < 0 ? "root of a negative number" : "root of what is not a number");
  const notNumber = (x) => fault("TypeError", "a number is needed, not " + kind(x));
  const notBool = (x) => fault("TypeError", "a bool is needed, not " + kind(x));
  const notText = (x) => fault("TypeError", "a text is needed, not " + kind(x));
  const notList = (x) => fault("TypeError", "a list is needed, not " + kind(x));
  const notDict = () => fault("TypeError", "a dict is needed, not a list");
  const notWhole = (x) => fault("TypeError", "a whole number is needed, not " + (isNaN(x) ? kind(x) : x));
  const noItem = () => fault("IndexError", "an index past the end of the list, or below zero");
  const noKey = (name) => fault("KeyError", name);

  function outside(x) {
    if (x !== x) fault("ValueError", "the result is not a number (NaN)");
    fault("OverflowError", "the result is beyond 2^53 - 1");
  }

  // These run in the innermost loops. V8 always inlines a function of fewer than 27 bytes of bytecode
  // (--max-inlined-bytecode-size-small; count with node --print-bytecode), so the unlikely ends stand outside.
  // 8.112963841460668e31 is 2^106: whole numbers are exact up to 2^53 - 1. Python counts on; so no result of arithmetic
  // may leave this range unnoticed.
  const num = (x) => (typeof x === "number" ? x : notNumber(x));
  const safe = (x) => (x * x < 8.112963841460668e31 ? x : outside(x));
  const nonzero = (x) => (x !== 0 ? x : zero());
  const unsigned = (x) => (x >= 0 ? x : negative(x));
  const bool = (x) => (typeof x === "boolean" ? x : notBool(x));
  const text = (x) => (typeof x === "string" ? x : notText(x));
  const list = (x) => (isArray(x) ? x : notList(x));
  const item = (x) => (x !== undefined ? x : noItem());
  const key = (x, name) => (x !== undefined ? x : noKey(name));
  const dict = (x) => (isArray(x) ? notDict() : x); // JavaScript itself refuses to set a key of anything else
  const whole = (x) => (isWhole(x) ? x : notWhole(x));
  const step = (x) => (whole(x) !== 0 ? x : fault("ValueError", "the step of a range is zero"));

  // Python's own way (CPython, Objects/floatobject.c, _float_div_mod): the floor of a / b can be one too high,
  // as 1.0 / 0.1 is 10 but 1.0 // 0.1 is 9.
  function floordiv(a, b) {
    nonzero(b);
    const rest = a % b;
    let quotient = (a - rest) / b;
    if (rest !== 0 && rest < 0 !== b < 0) quotient -= 1;
    const down = Math.floor(quotient);
    return safe(quotient - down > 0.5 ? down + 1 : down);
  }

  // == between values of one kind only: 1 == True and 1 == "1" do not mean in Python what they mean here.
  function eq(a, b) {
    if (typeof a !== typeof b) fault("TypeError", "compares " + kind(a) + " with " + kind(b));
    if (typeof a === "number") return num(a) === num(b);
    if (typeof a === "string" || typeof a === "boolean") return a === b;
    return fault("TypeError", "compares " + kind(a));
  }

  // The value first, as Python works it out first.
  function put(x, xs, i) {
    item(list(xs)[i]);
    xs[i] = x;
  }

  // Modules of the kernel call each other directly, as every such call was checked when it was translated. What a page
  // calls is a door: it looks at the number of arguments, and at those that are annotated as number, bool, text or list.
  const inner = {};
  const CHECKS = { n: num, b: bool, t: text, l: list };

  function door(f, kinds) {
    return (...given) => {
      if (given.length !== kinds.length) {
        fault("TypeError", f.name + "() takes " + kinds.length + " arguments, given " + given.length);
      }
      given.forEach((x, i) => kinds[i] in CHECKS && CHECKS[kinds[i]](x));
      return f(...given);
    };
  }

  function share(name, all, kinds) {
    inner[name] = all;
    $K[name] = { ...all };
    for (const f of Object.keys(kinds)) $K[name][f] = door(all[f], kinds[f]);
    Object.freeze($K[name]);
  }

  // Where each script begins in a file that holds several, told by the last line of that file.
  const PLACE = /([^\s(@]+):(\d+):\d+/g;
  const bundles = new Map();

  function bundled(error, starts) {
    const [[, file]] = error.stack.matchAll(PLACE);
    bundles.set(file, starts);
  }

  function own(file, line) {
    if (!bundles.has(file)) return [/(\w+)\.js$/.exec(file)?.[1] ?? "runtime", line];
    const [name, start] = bundles.get(file).findLast(([, first]) => first <= line);
    return [name, line - start + 1];
  }

  // The kernel's own place of an error, "rules.py:41": for the log of the page.
  function where(error) {
    for (const [, file, at] of String(error.stack).matchAll(PLACE)) {
      const [name, line] = own(file, Number(at));
      if (name !== "runtime" && Object.hasOwn($K, name)) return name + ".py:" + line;
    }
    return "";
  }

  $K.runtime = Object.freeze({
    bool, bundled, dict, eq, fault, floordiv, inner, item, key, list, nonzero, num, put, safe, share, step, text, unsigned,
    where, whole,
  });
})((globalThis.bevelKernel ??= {}));
