// The mix and the mirror that a chosen lens is to have: which they are, what follows from them, and how a quote keeps them.
// `with=mix` in an address stands for the mix of its `tint=`, `mirror-silver` for a mirror of the shop.
// SPDX-License-Identifier: AGPL-3.0-or-later
(function () {
  "use strict";

  const book = globalThis.bevelbook;
  const { make, later, say } = book;
  // There is such a place where the shop has dyes
  const room = document.getElementById("tinted-room");
  const MIRROR = "mirror-";
  // Whether one may drive behind it, as quoting/quoted/form.py has it
  const [TOO_DARK, NO_COLOR, BY_DAY, ALWAYS] = [0, 1, 2, 3];
  const SHOWN = ["clear", "23"];

  const named = (words) => words.some((word) => word === "mix" || word.startsWith(MIRROR));
  const light = () => later("../../data/light.js").then(() => later("tinge.js"));
  // What these words need is there; where it cannot be had, the tint is left out, and that is told.
  const lit = (words) => (room && named(words) ? light().catch(() => {}) : Promise.resolve());

  function mixOf(words, text = book.tint) {
    if (!words.includes("mix") || !book.tinge) return null;
    try {
      return book.tinge.fromText(text ?? "");
    } catch {
      return null; // an address that was cut
    }
  }

  function mirrorOf(words) {
    const wanted = words.find((word) => word.startsWith(MIRROR))?.slice(MIRROR.length);
    return (wanted && book.tinge && globalThis.bevelLight.mirrors.find((one) => one.id === wanted)) || null;
  }

  const lensOf = (pack) => globalThis.bevelLight.lenses.find((one) => one.id === pack.id);
  const nameOf = (mix) => (mix.id ? `${mix.name} (${mix.code})` : book.tinge.say("own"));

  // In one line, for letters.
  function tintLine({ pack, mix, mirror }) {
    if (!mix && !mirror) return "";
    const { tinge } = book;
    const lens = lensOf(pack);
    const all = tinge.seen(tinge.glassOf(lens, "clear", mirror?.id ?? ""), mix, [0, 0.5, 1]);
    const darkest = all.reduce((one, other) => (other.percent < one.percent ? other : one));
    const figures = tinge.say("mixed-told", { light: tinge.percent(darkest.percent), category: darkest.category });
    return [mix ? `${tinge.say("tint")}: ${nameOf(mix)}: ${tinge.recipe(mix)}` : "", mirror ? `${tinge.say("mirror")}: ${mirror.name}` : "", figures].filter(Boolean).join("; ");
  }

  // Beside the choices: what it is, why the lens does not take it, and what follows.
  function tintTold({ pack, mix, mirror, words = [] }) {
    if (named(words) && !book.tinge) return make("p", { class: "no" }, say("script-fault"));
    if (!mix && !mirror) return "";
    const { tinge } = book;
    const lens = lensOf(pack);
    const why = mix ? tinge.refused(lens, mix) : "";
    return make("div", { class: "picked-tint" },
      mix ? make("p", {}, make("b", {}, nameOf(mix)), ": ", tinge.recipe(mix)) : "",
      why ? make("p", { class: "no" }, tinge.say("not-taken", { why })) : "",
      lens.stated ? make("ul", { class: "small" }, ...tinge.told(lens, mix, mirror?.id ?? "").map((text) => make("li", {}, text))) : "",
      make("p", { class: "small" }, tinge.say("signals")));
  }

  const hundredths = (value) => Math.floor(100 * value + 0.5);

  function tintRecord(mix) {
    const { fades } = book.tinge;
    const { dyes } = globalThis.bevelLight;
    return {
      id: mix.id, code: mix.code ?? "", name: mix.id ? mix.name : "",
      dyes: Object.entries(mix.parts).map(([id, share]) => ({ id, name: dyes.find((one) => one.id === id).name, share: hundredths(share) })),
      top: hundredths(mix.top), bottom: fades(mix) ? hundredths(mix.bottom) : null,
      fade_from: fades(mix) ? hundredths(mix.from) : 0, fade_to: fades(mix) ? hundredths(mix.to) : 10000,
    };
  }

  // What the lens passes, as quoting/show/tint_record.py has it.
  function passed({ pack, mix, mirror }) {
    const { tinge } = book;
    const lens = lensOf(pack);
    if (!lens.stated) return [];
    const [least] = globalThis.bevelLight.limits;
    return tinge.states(lens).filter((state) => SHOWN.includes(state)).flatMap((state) => {
      const places = tinge.fades(mix) ? [0, 0.5, 1] : [0.5];
      const paint = tinge.paint(lens, mix, state, mirror?.id ?? "");
      return tinge.seen(tinge.glassOf(lens, state, mirror?.id ?? ""), mix, places).map((at, n) => {
        const [, color, opacity] = paint[places.length === 1 ? 0 : Math.floor((n * (paint.length - 1)) / 2)];
        const never = at.percent <= least ? TOO_DARK : NO_COLOR;
        const driving = at.day ? (at.night ? ALWAYS : BY_DAY) : never;
        return { percent: hundredths(at.percent), category: at.category, driving, color: color.slice(1), opacity: hundredths(opacity), state };
      });
    });
  }

  // The parts of a quote that hold them.
  function tintRecords(found) {
    const { mix, mirror } = found;
    if (!mix && !mirror) return { tints: [], pair: { tint: null, mirror: null, passed: [] } };
    return {
      tints: mix ? [tintRecord(mix)] : [],
      pair: { tint: mix ? 0 : null, mirror: mirror ? { id: mirror.id, name: mirror.name } : null, passed: passed(found) },
    };
  }

  // The part of the page that shows tints on its fronts, where it is open, shows the chosen one too.
  let telling = false;
  function wear(text) {
    book.tint = text;
    const list = document.getElementById("tinted-mix");
    if (!list || ![...list.options].some((one) => one.value === text)) return;
    telling = true;
    list.value = text;
    list.dispatchEvent(new Event("change", { bubbles: true }));
    telling = false;
  }

  Object.assign(book, { lit, mixOf, mirrorOf, nameOf, tintLine, tintTold, tintRecords, wear, lightOfTints: room ? light : null, isTelling: () => telling, lensOfTints: lensOf });
})();
