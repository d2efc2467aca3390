// What may be added to the chosen lens, with what each comes to in all and what speaks against it.
// SPDX-License-Identifier: AGPL-3.0-or-later
(function () {
  "use strict";

  const book = globalThis.bevelbook;
  const { shop, make, say, money } = book;
  // Words of an address -> wishes of the engine; `tint-50` stands for a depth
  const WISHES = { gradient: "tint_gradient", mirror: "mirror", slab_off: "slab_off", rush: "rush" };
  // Usual depths of a tint, percent of the light that it takes; (practice)
  const DEPTHS = [15, 25, 50, 65, 75, 80, 85, 90];

  // The words of the price list for what is added; nothing is offered that has no price.
  const textOf = (when) => shop.surcharges.find((one) => one.table.when === when)?.text;
  const depthOf = (words) => Number(words.find((word) => word.startsWith("tint-"))?.slice(5) ?? 0);

  // What can be added to this lens at all, whatever else is.
  function offered({ pack, fit }) {
    const found = [];
    if (textOf("tint") && pack.tintable) found.push("tint", "gradient");
    if (textOf("mirror") && pack.table.mirror) found.push("mirror");
    if (textOf("slab-off") && fit.reasons.some(({ code }) => code === "reading-imbalance")) found.push("slab_off");
    if (textOf("rush")) found.push("rush");
    return found;
  }

  // A lens with what was added to it, as far as it takes that.  A mix is as dark as it is, also where that is too dark.
  function withOptions(plain, words, wanted = book.mixOf(words)) {
    if (!plain || !words.length) return plain;
    const takes = offered(plain);
    const mix = takes.includes("tint") ? wanted : null;
    const depth = takes.includes("tint") ? Math.min(depthOf(words), plain.pack.table.tint_depth) : 0;
    const wishes = { ...plain.ask.wishes, tint_depth: mix ? Math.max(mix.top, mix.bottom) : depth };
    for (const [word, wish] of Object.entries(WISHES)) wishes[wish] = takes.includes(word) && words.some((one) => one.split("-")[0] === word);
    wishes.tint_gradient = mix ? book.tinge.fades(mix) : wishes.tint_gradient && depth > 0;
    const mirror = wishes.mirror ? book.mirrorOf(words) : null;
    return { ...book.offer(plain.frame, plain.size, plain.color, plain.pack, { ...plain.ask, wishes }), plain, words, mix, mirror };
  }

  // What was asked for and this lens does not take, or not so deep.
  function left({ pack }, words, takes) {
    const most = pack.table.tint_depth;
    const without = ["tint", "mirror"].filter((what) => textOf(what) && !takes.includes(what) &&
      words.some((word) => word.startsWith(what) || (what === "tint" && word === "mix")));
    const told = without.length ? [say("option-left", { what: without.map(textOf).join(", ") })] : [];
    if (takes.includes("tint") && depthOf(words) > most) {
      told.push(book.sentence({ code: "tint-too-deep", needed: most, given: depthOf(words) }, pack, "customer"));
    }
    return told.map((text) => make("p", { class: "small not-taken" }, text));
  }

  // `change`: takes the words of all that is added.
  function optionParts(found, change) {
    const { plain = found, words = [] } = found;
    const takes = offered(plain);
    if (!takes.length) return "";
    const others = (word) => words.filter((one) => one.split("-")[0] !== word && !(word === "tint" && one === "mix"));
    const codes = new Set(found.fit.reasons.map(({ code }) => code));
    // What a choice comes to beside what is chosen, and the first thing that would speak against it.
    function seen(without, word, mix) {
      const [one, other] = [withOptions(plain, without), withOptions(plain, [...without, word], mix)];
      const more = one.bill.priced && other.bill.priced ? other.bill.total_cents - one.bill.total_cents : 0;
      const against = other.fit.reasons.find(({ code, verdict }) => verdict === "no" && !codes.has(code));
      return [more ? ` (+${money(more)})` : "", against ? book.sentence(against, plain.pack, "customer") : ""];
    }
    function box(word) {
      const has = words.some((one) => one.split("-")[0] === word);
      const [more, against] = seen(others(word), word);
      const input = make("input", { type: "checkbox", id: `with-${word}`, "aria-describedby": against ? `against-${word}` : null });
      input.checked = has;
      input.addEventListener("change", () => change(has ? others(word) : [...words, word]));
      const text = word === "gradient" ? say("option-gradient") : textOf(word.replace("_", "-"));
      return make("div", {}, make("label", {}, input, ` ${text}${more}`),
        against && !has ? make("small", { id: `against-${word}`, class: "no" }, against) : "");
    }
    function tint() {
      const most = plain.pack.table.tint_depth;
      const depths = [...DEPTHS.filter((depth) => depth < most), most];
      const now = depthOf(words) && Math.min(depthOf(words), most);
      if (now && !depths.includes(now)) depths.push(now);
      const list = make("select", { id: "with-tint" }, make("option", { value: "" }, say("option-none")),
        ...depths.map((depth) => make("option", { value: depth }, `${depth} %${seen(others("tint"), `tint-${depth}`)[0]}`)), ...mixes());
      list.value = words.includes("mix") ? `mix:${book.tint}` : now || "";
      list.addEventListener("change", () => {
        const mixed = list.value.startsWith("mix:");
        if (mixed) book.wear(list.value.slice(4));
        change([...others("tint"), ...(mixed ? ["mix"] : list.value ? [`tint-${list.value}`] : [])]);
      });
      return make("div", {}, make("label", {}, `${textOf("tint")} `, list));
    }
    // The mixes of the shop, and that of the address, once what they need is there; what the lens does not take says why.
    function mixes() {
      if (!book.tinge) return [];
      const own = book.mixOf(["mix"]);
      const all = [...(own && !own.id ? [[book.tint, own]] : []), ...globalThis.bevelLight.mixes.map((mix) => [mix.id, mix])];
      const option = ([value, mix]) => {
        const why = book.tinge.refused(book.lensOfTints(plain.pack), mix);
        const more = why ? `: ${why}` : seen(others("tint"), "mix", mix)[0];
        return make("option", { value: `mix:${value}`, disabled: Boolean(why) && !(words.includes("mix") && book.tint === value) }, `${book.nameOf(mix)}${more}`);
      };
      return all.length ? [make("optgroup", { label: say("option-mixes") }, ...all.map(option))] : [];
    }
    // Which of the shop's mirrors.
    function mirrors() {
      const all = book.tinge ? globalThis.bevelLight.mirrors : [];
      if (!all.length || !words.some((one) => one.startsWith("mirror"))) return "";
      const list = make("select", { id: "with-mirror-which", "aria-label": textOf("mirror") }, make("option", { value: "mirror" }, say("option-any")),
        ...all.map((one) => make("option", { value: `mirror-${one.id}` }, one.name)));
      list.value = words.find((one) => one.startsWith("mirror"));
      list.addEventListener("change", () => change([...others("mirror"), list.value]));
      return list;
    }
    const shown = takes.filter((word) => word !== "gradient" || (depthOf(words) && !words.includes("mix")));
    const parts = make("fieldset", { class: "options" }, make("legend", {}, say("options-title")),
      ...shown.map((word) => (word === "tint" ? tint() : box(word))), mirrors(), left(plain, words, takes));
    const again = () => {
      if (!parts.isConnected) return;
      const focus = document.activeElement?.id;
      parts.replaceWith(optionParts(found, change));
      if (focus?.startsWith("with-")) document.getElementById(focus)?.focus({ preventScroll: true });
    };
    if ((takes.includes("tint") || takes.includes("mirror")) && !book.tinge) book.lightOfTints?.().then(again, () => {});
    // Somebody chose another tint for the fronts of the page.
    book.tinted = () => {
      if (!parts.isConnected || book.isTelling()) return;
      if (words.includes("mix")) change(book.tint ? [...words] : others("tint"));
      else again();
    };
    return parts;
  }

  Object.assign(book, { withOptions, optionParts });
})();
