// Records of a quote as lists of their values, by the form that quoting/quoted/form.py has; values are held to their kinds.
// SPDX-License-Identifier: AGPL-3.0-or-later
(function () {
  "use strict";

  // Control characters, signs that turn the direction of writing, halves of a pair
  const UNSHOWN = /[\u0000-\u001f\u007f-\u009f\u202a-\u202e\u2066-\u2069]|\p{Cs}/u;

  const refuse = (place) => {
    throw new RangeError(place);
  };
  const isWhole = (value, low, high) => Number.isInteger(value) && value >= low && value <= high;

  // 20261125 as a day, or null where there is no such day.
  function dayOf(number) {
    if (!isWhole(number, 20000101, 21991231)) return null;
    const [year, month, day] = [Math.floor(number / 10000), Math.floor(number / 100) % 100, number % 100];
    const found = new Date(Date.UTC(year, month - 1, day));
    return found.getUTCMonth() === month - 1 && found.getUTCDate() === day ? found : null;
  }

  const KINDS = {
    text: (value, most) => typeof value === "string" && [...value].length <= Number(most) && !UNSHOWN.test(value),
    word: (value, most) => typeof value === "string" && value.length <= Number(most) && /^[A-Za-z0-9 _-]*$/.test(value),
    whole: (value, limits) => isWhole(value, ...limits.split(":").map(Number)),
    day: (value) => dayOf(value) !== null,
    color: (value) => typeof value === "string" && /^[0-9a-f]{6}$/.test(value),
    flag: (value) => isWhole(value, 0, 1),
    one: (value, words) => typeof value === "string" && words.split("|").includes(value),
  };

  function each(kind, value, place, turn) {
    const { form } = globalThis.bevelQuotes;
    if (kind.startsWith("?")) return value === null ? null : each(kind.slice(1), value, place, turn);
    const cut = kind.indexOf(":");
    const [name, limits] = cut < 0 ? [kind, ""] : [kind.slice(0, cut), kind.slice(cut + 1)];
    if (name === "list") {
      const [most, inner] = [Number(limits.slice(0, limits.indexOf(":"))), limits.slice(limits.indexOf(":") + 1)];
      if (!Array.isArray(value) || value.length > most) refuse(place);
      return value.map((one, at) => each(inner, one, `${place}[${at}]`, turn));
    }
    if (Object.hasOwn(form, name)) return turn(form[name], value, place);
    if (!KINDS[name](value, limits)) refuse(place);
    return value;
  }

  function toRecord(fields, value, place) {
    const least = fields.filter((field) => field.length === 2).length;
    if (!Array.isArray(value) || value.length < least || value.length > fields.length) refuse(place);
    const found = {};
    fields.forEach(([name, kind, usual], at) => {
      found[name] = each(kind, at < value.length ? value[at] : usual, `${place}.${name}`, toRecord);
    });
    return found;
  }

  // What a record does not say is as usual, so that a field more asks nothing of who has nothing to say of it.
  function toList(fields, value, place) {
    const found = fields.map(([name, kind, usual]) => each(kind, name in value ? value[name] : usual, `${place}.${name}`, toList));
    const same = (at) => fields[at].length === 3 && JSON.stringify(found[at]) === JSON.stringify(fields[at][2]);
    while (found.length && same(found.length - 1)) found.pop();
    return found;
  }

  Object.assign(globalThis.bevelbook, {
    dayOf,
    unpacked: (kind, value) => each(kind, value, kind, toRecord),
    packed: (kind, value) => each(kind, value, kind, toList),
  });
})();
