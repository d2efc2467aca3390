// A frame's own front wears a tint: one of the tint book or the mix of the address, clear or darkened, on skin or on white.
// Asked for late: see `later` in core.js.
// SPDX-License-Identifier: AGPL-3.0-or-later
(function () {
  "use strict";

  const book = globalThis.bevelbook;
  const { make, later } = book;
  const home = document.getElementById("tinted-room");
  const block = document.getElementById("frame-data");
  if (!home || !block) return;

  const frame = JSON.parse(block.textContent);

  function begin() {
    const { tinge } = book;
    const { say } = tinge;
    const { mixes, lenses, mirrors } = globalThis.bevelLight;
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
    const view = make("figure", { class: "plate" });
    const told = make("p", { class: "mix-told" });
    const list = make("ul", { class: "small" });
    let state = "clear";

    const size = frame.sizes.find((one) => one.key === said.size) ?? frame.sizes[0];
    const color = frame.colors.find((one) => one.id === said.color) ?? frame.colors[0];
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

    // Clear and each darkened state as buttons of one group: arrow keys go from one to the next.
    function statesShown() {
      const names = tinge.states(lensOf());
      if (!names.includes(state)) state = "clear";
      states.hidden = names.length === 1;
      states.replaceChildren(make("legend", {}, say("state")), ...names.map((name) => make("label", {},
        make("input", { type: "radio", name: "tinted-state", value: name, checked: name === state }), make("span", {}, tinge.stateText(name)))));
    }

    function answer() {
      const [lens, mix] = [lensOf(), mixOf()];
      const glass = tinge.glassOf(lens, state, fields.mirror.value);
      tinge.wear(svg, glass, mix, fields.ground.value, "tinted-shade");
      const [middle] = tinge.seen(glass, mix, [0.5]);
      const why = tinge.refused(lens, mix);
      book.tell(told, [say("mixed-told", { light: tinge.percent(middle.percent), category: middle.category }),
        why ? say("not-taken", { why }) : ""].filter(Boolean).join(". "));
      list.replaceChildren(...tinge.told(lens, mix, fields.mirror.value).map((text) => make("li", {}, text)));
      book.tint = mix ? tinge.toText(mix) : "";
      book.writeAddress?.();
      const parts = location.hash.replace(/^#/, "").split("&").filter((part) => part && !part.startsWith("tint="));
      if (book.tint) parts.push(`tint=${book.tint}`);
      history.replaceState(history.state, "", `${location.pathname}${location.search}${parts.length ? `#${parts.join("&")}` : ""}`);
    }

    const chosen = lenses.find((one) => one.id === said.lens && one.stated);
    const mix = own ?? mixes.find((one) => one.id === book.tint) ?? mixes[0];
    const deepest = mix ? Math.max(mix.top, mix.bottom) : 0;
    const taking = lenses.find((one) => one.stated && !one.over && one.depth >= deepest && one.coat >= deepest);
    if (chosen ?? taking) fields.lens.value = (chosen ?? taking).id;
    fields.tint.value = own ? "own" : (mix?.id ?? "");
    const labelled = (text, control) => make("label", {}, make("span", {}, text), control);
    home.replaceChildren(
      make("div", { class: "mix-form" }, labelled(say("tint"), fields.tint), labelled(say("lens"), fields.lens),
        labelled(say("mirror"), fields.mirror), labelled(say("ground"), fields.ground)),
      states, view, told, list, make("p", { class: "small" }, say("signals")));
    crop();
    statesShown();
    home.addEventListener("change", (event) => {
      if (event.target.name === "tinted-state") state = event.target.value;
      if (event.target === fields.lens) statesShown();
      answer();
    });
    answer();
  }

  Promise.all([later("../../data/light.js"), later("../css/tints.css"), later("fronts.js", document.baseURI)])
    .then(() => later("tinge.js"))
    .then(begin)
    .catch(() => home.append(make("p", { class: "small" }, book.say("script-fault"))));
})();
