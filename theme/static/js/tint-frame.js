// A frame's own front wears a tint: one of the tint book or the mix of the address, clear or darkened, on skin or on white;
// a street is seen through it, and once somebody has chosen, every front of the page wears it.
// Asked for late: see `later` in core.js.
// SPDX-License-Identifier: AGPL-3.0-or-later
(function () {
  "use strict";

  const book = globalThis.bevelbook;
  const { make, later, putOn } = book;
  const home = document.getElementById("tinted-room");
  const block = document.getElementById("frame-data");
  if (!home || !block) return;

  const frame = JSON.parse(block.textContent);
  const PLACES = [["place-top", 0], ["place-middle", 0.5], ["place-bottom", 1]];

  function begin() {
    const { tinge } = book;
    const { say } = tinge;
    const { mixes, lenses, mirrors, limits, words } = globalThis.bevelLight;
    const said = Object.fromEntries(location.hash.replace(/^#/, "").split("&").map((part) => part.split("=", 2)));
    let own = null;
    try {
      own = tinge.fromText(book.tint ?? "");
    } catch {
      // An address that was cut
    }
    if (own?.id) own = null;
    const options = [["", say("no-tint")], ...(own ? [["own", say("own")]] : []), ...mixes.map((one) => [one.id, one.name])];
    const select = (id, list) => make("select", { id }, ...list.map(([value, text]) => make("option", { value }, text)));
    const fields = {
      tint: select("tinted-mix", options),
      lens: select("tinted-lens", lenses.filter((one) => one.stated).map((one) => [one.id, one.name])),
      mirror: select("tinted-mirror", [["", say("mirror-none")], ...mirrors.map((one) => [one.id, one.name])]),
      ground: select("tinted-ground", [["skin", say("ground-skin")], ["white", say("ground-white")]]),
    };
    const states = make("fieldset", { class: "live-choice" });
    const places = make("fieldset", { class: "live-choice" });
    const view = make("figure", { class: "plate" });
    const street = make("figure", { class: "plate" });
    const told = make("p", { class: "mix-told" });
    const list = make("ul", { class: "small" });
    let state = "clear";
    let place = "place-middle";
    const known = own ?? mixes.find((one) => one.id === book.tint) ?? null;
    let chosen = known !== null; // an address may name a tint that there is not

    const size = frame.sizes.find((one) => one.key === said.size) ?? frame.sizes[0];
    const color = frame.colors.find((one) => one.id === said.color) ?? book.firstColor(frame);
    const svg = book.front(size, { ...color, version: "optical" });
    svg.classList.remove("measured");
    svg.classList.add("worn");
    for (const one of svg.querySelectorAll(".measures, .grid")) one.remove();
    view.append(svg);

    const lensOf = () => lenses.find((one) => one.id === fields.lens.value);
    const mixOf = () => (fields.tint.value === "own" ? own : (mixes.find((one) => one.id === fields.tint.value) ?? null));

    // The front alone, with some room around it: its dimension lines are gone.
    function crop() {
      const room = 4;
      const body = svg.querySelector(".frame").getBBox();
      const box = [body.x - room, body.y - room, body.width + 2 * room, body.height + 2 * room].map((one) => one.toFixed(2));
      svg.setAttribute("viewBox", box.join(" "));
      svg.setAttribute("width", `${box[2]}mm`);
      svg.setAttribute("height", `${box[3]}mm`);
    }

    // One of a few as buttons of one group: arrow keys go from one to the next.
    function group(field, legend, name, options, now) {
      field.hidden = options.length < 2;
      field.replaceChildren(make("legend", {}, say(legend)), ...options.map(([value, text]) => make("label", {},
        make("input", { type: "radio", name, value, checked: value === now }), make("span", {}, text))));
    }

    // Clear and each darkened state; of a gradient, through which place of it the street is seen.
    function groups() {
      const names = tinge.states(lensOf());
      if (!names.includes(state)) state = "clear";
      group(states, "state", "tinted-state", names.map((name) => [name, tinge.stateText(name)]), state);
      group(places, "through", "tinted-place", tinge.fades(mixOf()) ? PLACES.map(([name]) => [name, say(name)]) : [], place);
    }

    // The paint of a lens with what was chosen; null where it is plain glass, or does not take it.
    function paintOf(lens, mirror) {
      const mix = mixOf();
      const shown = tinge.states(lens).includes(state) ? state : "clear";
      if (tinge.refused(lens, mix, mirror) || (!mix && !mirror && lens.clear)) return null;
      return lens.stated ? tinge.paint(lens, mix, shown, mirror) : null;
    }

    // A front wears what was chosen, or again what it is drawn with; whether it wears what was chosen.
    function dress(front, id, lens = lensOf(), own = null) {
      const stops = chosen ? paintOf(lens, lens === lensOf() || lens.mirror ? fields.mirror.value : "") : null;
      putOn(front, stops ?? own, id);
      return stops !== null;
    }

    // For drawings that are made later: of a lens of the board, or of a color in its own lenses.
    book.dress = (front, id, pack, own) => dress(front, id, lenses.find((one) => one.id === pack), own);

    function dressAll() {
      const own = (one) => globalThis.bevelFronts.colors[one.id][2] ?? null;
      const first = book.firstColor(frame);
      for (const one of document.querySelectorAll("figure.plate > .measured")) dress(one, "worn-first", lensOf(), own(first));
      document.querySelectorAll("#colors ~ .cards > .card").forEach((card, n) => {
        const worn = dress(card.querySelector(".front"), `worn-${n}`, lensOf(), own(frame.colors[n]));
        for (const words of card.querySelectorAll("[data-own]")) words.hidden = worn;
      });
      for (const one of document.querySelectorAll(".sitting")) book.dressSitting(one);
      for (const one of document.querySelectorAll(".life-front")) dress(one, "shade-life", lensOf(), own(frame.colors.find(({ id }) => id === one.dataset.color)));
    }

    function answer() {
      const [lens, mix] = [lensOf(), mixOf()];
      const glass = tinge.glassOf(lens, state, fields.mirror.value);
      tinge.wear(svg, glass, mix, fields.ground.value, "tinted-shade");
      const through = tinge.fades(mix) ? PLACES.find(([name]) => name === place)[1] : 0.5;
      tinge.recolor(street.firstElementChild, glass, mix, through);
      street.firstElementChild.setAttribute("aria-label", say("street-label", { name: mix ? mix.name || say("own") : lens.name }));
      dressAll();
      const [top, middle, bottom] = tinge.seen(glass, mix, [0, 0.5, 1]);
      const dark = [top, middle, bottom].some(({ percent }) => percent <= limits[0]);
      const why = tinge.refused(lens, mix, fields.mirror.value);
      const sentences = [dark ? words.told["day-never"] : "", why ? say("not-taken", { why }) : "",
        chosen && paintOf(lens, fields.mirror.value) ? say("everywhere") : ""];
      book.tell(told, [`${say("mixed-told", { light: tinge.percent(middle.percent), category: middle.category })}.`, ...sentences.filter(Boolean)].join(" "));
      list.replaceChildren(...tinge.told(lens, mix, fields.mirror.value).map((text) => make("li", {}, text)));
      if (!chosen) return;
      book.tint = mix ? tinge.toText(mix) : "";
      book.tinted?.();
      book.writeAddress?.();
      const parts = location.hash.replace(/^#/, "").split("&").filter((part) => part && !part.startsWith("tint="));
      if (book.tint) parts.push(`tint=${book.tint}`);
      history.replaceState(history.state, "", `${location.pathname}${location.search}${parts.length ? `#${parts.join("&")}` : ""}`);
    }

    const named = lenses.find((one) => one.id === said.lens && one.stated);
    const mix = known ?? mixes[0];
    const deepest = mix ? Math.max(mix.top, mix.bottom) : 0;
    const taking = lenses.find((one) => one.stated && !one.over && one.depth >= deepest && one.coat >= deepest);
    if (named ?? taking) fields.lens.value = (named ?? taking).id;
    fields.tint.value = own ? "own" : (mix?.id ?? "");
    const labelled = (text, control) => make("label", {}, make("span", {}, text), control);
    home.replaceChildren(
      make("div", { class: "mix-form" }, labelled(say("tint"), fields.tint), labelled(say("lens"), fields.lens),
        labelled(say("mirror"), fields.mirror), labelled(say("ground"), fields.ground)),
      states, view, told, places, street, list, make("p", { class: "small" }, say("signals")));
    street.innerHTML = globalThis.bevelLight.street;
    street.append(make("figcaption", {}, say("street-here")));
    crop();
    groups();
    home.addEventListener("change", (event) => {
      chosen = true;
      if (event.target.name === "tinted-state") state = event.target.value;
      else if (event.target.name === "tinted-place") place = event.target.value;
      else groups();
      answer();
    });
    answer();
  }

  Promise.all([later("../../data/light.js"), later("../css/tints.css"), later("fronts.js", document.baseURI)])
    .then(() => later("tinge.js"))
    .then(begin)
    .catch(() => home.append(make("p", { class: "small" }, book.say("script-fault"))));
})();
