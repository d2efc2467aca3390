// Mixing on the page of tints: dyes in parts, how dark, on which lens; figures and look at once, and all of it in the address.
// SPDX-License-Identifier: AGPL-3.0-or-later
(function () {
  "use strict";

  const book = globalThis.bevelbook;
  const { make, tinge, soon, shop } = book;
  const { say } = tinge;
  const { dyes, lenses, mirrors } = globalThis.bevelLight;
  const home = document.getElementById("mixing");
  if (!home) return;

  const MINE = ["tint", "name", "lens", "mirror", "state", "ground"];
  const PLACES = [["place-top", 0], ["place-middle", 0.5], ["place-bottom", 1]];
  const DYES = 3;
  const fields = {};

  const labelled = (text, control) => make("label", {}, make("span", {}, text), control);
  const choice = (name, options) => {
    fields[name] = make("select", { id: `mix-${name}` }, ...options.map(([value, text]) => make("option", { value }, text)));
    return fields[name];
  };
  const figure = (name, value, least, most, step = 1) => {
    fields[name] = make("input", { id: `mix-${name}`, type: "number", min: least, max: most, step, value, inputmode: "decimal" });
    return fields[name];
  };

  function form() {
    const rows = Array.from({ length: DYES }, (_, n) => {
      const number = n + 1;
      const options = [["", say("dye-none")], ...dyes.map((one) => [one.id, one.name])];
      return make("div", { class: "mix-dye" }, labelled(say("dye", { number }), choice(`dye${number}`, options)),
        labelled(say("parts"), figure(`part${number}`, n ? 1 : 2, 0, 1000, 0.5)));
    });
    fields.fades = make("input", { id: "mix-fades", type: "checkbox" });
    fields.name = make("input", { id: "mix-name", type: "text", maxlength: 60 });
    fields.slide = make("input", { id: "mix-slide", type: "range", min: 1, max: 97, step: 1, "aria-label": say("dark-top") });
    const fading = make("div", { class: "mix-fading", hidden: true },
      labelled(say("dark-bottom"), figure("bottom", 15, 0, 97)), labelled(say("fade-from"), figure("from", 20, 0, 99)),
      labelled(say("fade-to"), figure("to", 85, 1, 100)));
    fields.fading = fading;
    return make("form", { class: "mix-form" }, ...rows,
      make("div", { class: "mix-dark" }, labelled(say("dark-top"), figure("top", 75, 1, 97)), fields.slide),
      make("label", { class: "mix-check" }, fields.fades, " ", make("span", {}, say("fades"))), fading,
      labelled(say("lens"), choice("lens", lenses.filter((one) => one.stated).map((one) => [one.id, one.name]))),
      labelled(say("mirror"), choice("mirror", [["", say("mirror-none")], ...mirrors.map((one) => [one.id, one.name])])),
      labelled(say("state"), choice("state", [["clear", say("state-clear")]])),
      labelled(say("ground"), choice("ground", [["skin", say("ground-skin")], ["white", say("ground-white")]])),
      labelled(say("name"), fields.name));
  }

  const lensOf = () => lenses.find((one) => one.id === fields.lens.value) ?? lenses[0];
  const bounded = (name) => {
    const { min, max, value } = fields[name];
    const number = Number(value.replace(",", "."));
    return value === "" || !Number.isFinite(number) ? Number(min) : Math.min(Number(max), Math.max(Number(min), number));
  };

  function mixOf() {
    const parts = {};
    for (let n = 1; n <= DYES; n += 1) {
      const [id, part] = [fields[`dye${n}`].value, bounded(`part${n}`)];
      if (id && part > 0) parts[id] = (parts[id] ?? 0) + part;
    }
    if (!Object.keys(parts).length) return null;
    const top = bounded("top");
    const [from, to] = [bounded("from"), Math.max(bounded("from") + 1, bounded("to"))];
    const fading = fields.fades.checked ? { bottom: bounded("bottom"), from, to } : { bottom: top, from: 0, to: 100 };
    return { id: "", name: fields.name.value, parts, top, ...fading };
  }

  function show(mix) {
    Object.entries(mix.parts).slice(0, DYES).forEach(([id, part], n) => {
      fields[`dye${n + 1}`].value = id;
      fields[`part${n + 1}`].value = part;
    });
    for (let n = Object.keys(mix.parts).length; n < DYES; n += 1) fields[`dye${n + 1}`].value = "";
    fields.top.value = mix.top;
    fields.fades.checked = tinge.fades(mix);
    if (tinge.fades(mix)) for (const name of ["bottom", "from", "to"]) fields[name].value = mix[name];
  }

  function statesShown() {
    const names = tinge.states(lensOf());
    const was = fields.state.value;
    fields.state.replaceChildren(...names.map((name) => make("option", { value: name }, tinge.stateText(name))));
    fields.state.value = names.includes(was) ? was : (names.find((name) => name === "23") ?? names[0]);
    fields.state.disabled = names.length === 1;
  }

  function table(glass, mix) {
    const places = tinge.fades(mix) ? PLACES : [["", 0.5]];
    const known = lensOf().inside >= 0;
    const rows = tinge.seen(glass, mix, places.map(([, at]) => at)).map((one, n) => make("tr", {},
      make("th", { scope: "row" }, places[n][0] ? say(places[n][0]) : tinge.stateText(fields.state.value)),
      make("td", { class: "num" }, `${tinge.percent(one.percent)} %`), make("td", { class: "num" }, String(one.category)),
      make("td", { class: "num" }, known ? `${tinge.percent(one.uva)} %` : "\u2013"), make("td", {}, tinge.driving(one))));
    const heads = ["where", "light", "category", "uva", "driving"].map((key, n) => make("th", { scope: "col", class: n && n < 4 ? "num" : null }, say(key)));
    return make("table", { class: "figures" }, make("caption", {}, say("figures")), make("thead", {}, make("tr", {}, ...heads)),
      make("tbody", {}, ...rows));
  }

  function address(mix) {
    book.writeAddress?.();
    const others = location.hash.replace(/^#/, "").split("&").filter((part) => part.includes("=") && !MINE.includes(part.split("=", 1)[0]));
    const mine = { tint: tinge.toText(mix), name: encodeURIComponent(fields.name.value), lens: fields.lens.value,
      mirror: fields.mirror.value, state: fields.state.value === "clear" ? "" : fields.state.value, ground: fields.ground.value === "skin" ? "" : "white" };
    const parts = [...others, ...MINE.filter((name) => mine[name]).map((name) => `${name}=${mine[name]}`)];
    history.replaceState(history.state, "", `${location.pathname}${location.search}#${parts.join("&")}`);
    return location.href;
  }

  const parts = {};
  function answer() {
    const mix = mixOf();
    fields.fading.hidden = !fields.fades.checked;
    fields.slide.value = fields.top.value;
    statesShown();
    const lens = lensOf();
    const glass = tinge.glassOf(lens, fields.state.value, fields.mirror.value);
    tinge.wear(parts.front, glass, mix, fields.ground.value, "mix-shade");
    tinge.recolor(parts.street, glass, mix, 0.5);
    if (!mix) {
      parts.told.replaceChildren(say("nothing-mixed"));
      parts.rest.replaceChildren();
      return;
    }
    const [middle] = tinge.seen(glass, mix, [0.5]);
    book.tell(parts.told, say("mixed-told", { light: tinge.percent(middle.percent), category: middle.category }));
    const wanted = Math.max(mix.top, mix.bottom);
    const [dye] = tinge.seen({ internal: glass.internal.map(() => 1), front: glass.front.map(() => 0), back: glass.back.map(() => 0) },
      mix, [mix.top >= mix.bottom ? 0 : 1]);
    const why = tinge.refused(lens, mix, fields.mirror.value);
    const warnings = [why ? say("not-taken", { why }) : "", Math.abs(dye.percent - 100 + wanted) > 0.2 ? say("never-so-dark") : ""].filter(Boolean);
    const link = address(mix);
    const name = fields.name.value || say("own");
    const body = say("ask-body", { recipe: tinge.recipe(mix), lens: lens.name, address: link });
    const mail = `mailto:${shop.email}?subject=${encodeURIComponent(say("ask-subject", { name }))}&body=${encodeURIComponent(body)}`;
    parts.rest.replaceChildren(make("p", {}, make("b", {}, name), ": ", tinge.recipe(mix)),
      ...warnings.map((text) => make("p", { class: "mix-warning" }, text)),
      make("div", { class: "scroll", role: "region", "aria-label": say("figures"), tabindex: 0 }, table(glass, mix)),
      make("ul", {}, ...tinge.told(lens, mix, fields.mirror.value).map((text) => make("li", {}, text))),
      make("p", { class: "small" }, say("signals")),
      make("p", { class: "go" }, make("a", { class: "button", href: mail }, say("ask")), make("a", { href: link }, say("link"))));
  }

  function recall() {
    const said = Object.fromEntries(location.hash.replace(/^#/, "").split("&").map((part) => part.split("=", 2)));
    let mix = null;
    try {
      mix = tinge.fromText(said.tint ?? "");
      fields.name.value = decodeURIComponent(said.name ?? "").slice(0, 60);
    } catch {
      // An address that was cut: nothing of it is guessed
    }
    for (const name of ["lens", "mirror", "ground"]) if ([...fields[name].options].some((one) => one.value === said[name])) fields[name].value = said[name];
    statesShown();
    if ([...fields.state.options].some((one) => one.value === said.state)) fields.state.value = said.state;
    if (mix) show(mix);
    if (mix?.name) fields.name.value = mix.name;
    return mix;
  }

  const made = form();
  parts.front = document.querySelector("#mixing-look .front");
  parts.street = document.querySelector("#mixing-look .street");
  parts.told = make("p", { class: "mix-told" });
  parts.rest = make("div", {});
  home.replaceChildren(made, parts.told, parts.rest);
  fields.dye1.value = dyes[0].id;
  const taking = lenses.find((one) => one.stated && !one.over && one.depth >= 75 && one.coat >= 75);
  if (taking) fields.lens.value = taking.id;
  const [first] = globalThis.bevelLight.mixes;
  if (!recall() && first) show(first);
  const again = soon(answer);
  made.addEventListener("input", (event) => {
    if (event.target === fields.slide) fields.top.value = fields.slide.value;
    again();
  });
  made.addEventListener("submit", (event) => event.preventDefault());
  globalThis.addEventListener("hashchange", () => {
    if (recall()) again();
  });

  // Each mix of the book is a beginning.
  function beginWith(id) {
    const mix = tinge.fromText(id);
    show(mix);
    fields.name.value = mix.name;
    again();
    document.getElementById("mix").scrollIntoView();
    fields.dye1.focus({ preventScroll: true });
  }
  for (const card of document.querySelectorAll("[data-mix]")) {
    const button = make("button", { type: "button", class: "button" }, say("begin"));
    button.addEventListener("click", () => beginWith(card.dataset.mix));
    card.append(make("p", {}, button));
  }
  answer();
})();
