// The tint of a quote in words and figures, and the paint of the front that wears it, from what its link holds alone:
// as quoting/show/tint_lines.py and tint_paint.py have it.  Asked for by quotes that have one, or a lens with a color of its
// own, with data/quote-tints.js.
// SPDX-License-Identifier: AGPL-3.0-or-later
(function () {
  "use strict";

  const { fill, fixed, local } = globalThis.bevelbook;
  const SUN = 2;
  const DARKER_THAN_ANY = 5;

  const say = (key, values = {}) => fill(globalThis.bevelQuoteTints.words[`tint-${key}`], values);
  const plain = (hundredths) => local(String(hundredths / 100));
  const percent = (hundredths) => local(fixed(hundredths / 100, 1));
  const tintOf = (quote, pair) => (pair.tint === null ? null : quote.tints[pair.tint]);

  function recipe(tint) {
    const parts = tint.dyes.map((dye) => `${plain(dye.share)} ${dye.name}`).join(", ");
    if (tint.bottom === null || tint.bottom === tint.top) return say("recipe", { parts, top: plain(tint.top) });
    return say("recipe-fading", { parts, top: plain(tint.top), bottom: plain(tint.bottom), first: plain(tint.fade_from), last: plain(tint.fade_to) });
  }

  // What tells the tint from another one in a list.
  function short(quote, pair) {
    const tint = tintOf(quote, pair);
    return tint ? say(tint.name ? "short" : "short-own", { name: tint.name }) : "";
  }

  function nameText(tint) {
    return say(tint.code ? "book" : tint.name ? "named" : "own", { name: tint.name, code: tint.code, recipe: recipe(tint) });
  }

  // What passes in one state: of a gradient at the top, in the middle and at the bottom.
  function light(at, state) {
    const category = Math.max(...at.map((one) => one.category));
    const darker = category === DARKER_THAN_ANY ? "-5" : "";
    const values = { category: String(category), degrees: state, percent: percent(Math.min(...at.map((one) => one.percent))) };
    if (state !== "clear") return say(`dark${darker}`, values);
    if (at.length !== 3) return say(`light${darker}`, values);
    const [top, middle, bottom] = at.map((one) => percent(one.percent));
    return say(`fading${darker}`, { ...values, top, middle, bottom });
  }

  function lines(quote, pair) {
    const [tint, { mirror, passed }] = [tintOf(quote, pair), pair];
    const states = [...new Set(passed.map((one) => one.state))];
    return [
      tint && nameText(tint),
      mirror && say("mirror", { name: mirror.name }),
      ...states.map((state) => light(passed.filter((one) => one.state === state), state)),
      passed.length ? say(`driving-${Math.min(...passed.map((one) => one.driving))}`) : "",
      pair.measures.child && passed.some((one) => one.category >= SUN) ? say("child") : "",
    ].filter(Boolean);
  }

  // Mixes that the tint book has no more, or has otherwise: their names may be others today, what is in them not.
  function changes(quote) {
    const bare = (tint) => JSON.stringify([tint.code, tint.dyes.map((dye) => [dye.id, dye.share]), tint.top, tint.bottom, tint.fade_from, tint.fade_to]);
    const book = globalThis.bevelQuoteTints.mixes.map((mix) => globalThis.bevelbook.unpacked("tint", mix));
    return quote.tints.filter((tint) => tint.id).flatMap((tint) => {
      const today = book.find((one) => one.id === tint.id);
      if (today && bare(today) === bare(tint)) return [];
      return [say(today ? "other" : "gone", { name: tint.name })];
    });
  }

  // The color that a lens has by itself, such as a polarized one, as the shop has it today: a link has its name alone.
  function own({ id, light }) {
    return globalThis.bevelQuoteTints.lenses.find((one) => one[0] === id && one[1] === light)?.[2] ?? [];
  }

  // Stops of height, color and opacity from the top of the lens down; none where it is clear.
  function paint(quote, pair) {
    const at = pair.passed.filter((one) => one.state === "clear");
    const stop = (height, one) => [height, `#${one.color}`, one.opacity / 100];
    const tint = tintOf(quote, pair);
    if (!at.length) return own(quote.lenses[pair.lens]);
    if (at.length !== 3 || !tint) return at.slice(0, 1).map((one) => stop(0, one));
    const [top, middle, bottom] = at;
    const [from, to] = [tint.fade_from / 10000, tint.fade_to / 10000];
    return [stop(0, top), stop(from, top), stop(0.5, middle), stop(to, bottom), stop(1, bottom)].sort((a, b) => a[0] - b[0]);
  }

  Object.assign(globalThis.bevelbook, { tintChanges: changes, tintLines: lines, tintShort: short, tintPaint: paint });
})();
