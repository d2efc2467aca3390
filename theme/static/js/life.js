// A frame in true size on the visitor's own screen, which is measured with a bank card laid on it.
// Asked for late: see `later` in core.js.
// SPDX-License-Identifier: AGPL-3.0-or-later
(function () {
  "use strict";

  const book = globalThis.bevelbook;
  const { make, draw, mm, say } = book;
  const home = document.getElementById("life-room");
  const block = document.getElementById("frame-data");
  if (!home || !block) return;

  const frame = JSON.parse(block.textContent);
  const KEPT = "bevelbook.screen";
  // ISO/IEC 7810, format ID-1: 85.60 mm by 53.98 mm, its corners 2.88 to 3.48 mm round (from memory)
  const CARD = { long: 85.6, short: 53.98, corner: 3.18 };
  // Dots of the page to a millimeter: from a large television close by to a small phone; CSS itself takes 96 to the inch
  const LEAST = 2;
  const MOST = 9;
  const STEP = 0.01;
  const USUAL = 96 / 25.4;
  // The line by which a drawing is checked, as in the build's drawings
  const CHECK = 50;

  const state = { size: frame.sizes[0], color: book.firstColor(frame), upright: false, fitted: false, kept: false };
  const parts = {};

  // What is kept are the dots of the screen, so that the drawing stays in true size when the page is zoomed.
  const dots = () => globalThis.devicePixelRatio || 1;
  const scale = { screen: USUAL * dots() };
  const now = () => scale.screen / dots();

  function recall() {
    try {
      const kept = Number(localStorage.getItem(KEPT));
      if (!(kept >= LEAST && kept <= MOST * 8)) return;
      Object.assign(state, { fitted: true, kept: true });
      scale.screen = kept;
    } catch {
      // A browser that lets pages keep nothing
    }
  }

  function keep() {
    state.kept = parts.keep.checked;
    try {
      if (state.kept) localStorage.setItem(KEPT, scale.screen.toFixed(4));
      else localStorage.removeItem(KEPT);
      book.tell(parts.told, say(state.kept ? "life-kept" : "life-not-kept"));
    } catch {
      parts.keep.checked = state.kept = false;
      book.tell(parts.told, say("cannot-keep"));
    }
  }

  // What was chosen in the address of the page is shown first.
  function chosen() {
    const said = Object.fromEntries(location.hash.replace(/^#/, "").split("&").map((part) => part.split("=", 2)));
    state.size = frame.sizes.find((one) => one.key === said.size) ?? state.size;
    state.color = frame.colors.find((one) => one.id === said.color) ?? state.color;
  }

  function card() {
    const [wide, high] = state.upright ? [CARD.short, CARD.long] : [CARD.long, CARD.short];
    const svg = draw("svg", { class: "life-card", viewBox: `0 0 ${wide} ${high}`, width: `${wide}mm`, height: `${high}mm`,
      "aria-hidden": "true", focusable: "false" },
      draw("rect", { x: 0.2, y: 0.2, width: wide - 0.4, height: high - 0.4, rx: CARD.corner }),
      draw("path", { d: `M3 ${high / 2}H${wide - 3}M5 ${high / 2 - 2}l-2 2l2 2M${wide - 5} ${high / 2 - 2}l2 2l-2 2` }),
      draw("text", { x: wide / 2, y: high / 2 - 2, "text-anchor": "middle" }, `${mm(wide, 2)} mm`));
    svg.style.setProperty("--wide", wide);
    parts.card.replaceChildren(svg);
  }

  // The front alone, on its squares, with the line to check it by.
  function frameDrawn() {
    const svg = book.front(state.size, state.color, "shade-life");
    parts.view.replaceChildren(svg);
    const body = svg.querySelector(".frame").getBBox();
    const [left, wide] = [Math.floor(body.x) - 3, Math.ceil(body.width) + 6];
    const top = Math.floor(body.y) - 3;
    const low = Math.ceil(body.y + body.height) + 11;
    svg.setAttribute("viewBox", `${left} ${top} ${wide} ${low - top}`);
    svg.setAttribute("width", `${wide}mm`);
    svg.setAttribute("height", `${low - top}mm`);
    svg.classList.add("life-front");
    svg.dataset.color = state.color.id;
    book.dress?.(svg, "shade-life", undefined, globalThis.bevelFronts.colors[state.color.id][2]);
    svg.classList.remove("measured");
    svg.style.setProperty("--wide", wide);
    svg.setAttribute("aria-label", say("life-label", { frame: frame.name, size: state.size.label, color: state.color.name }));
    svg.querySelector(".measures").replaceChildren(
      draw("path", { class: "dimension check", d: `M${-CHECK / 2} ${low - 3}h${CHECK}m0 -1.5v3m${-CHECK} -3v3` }),
      draw("text", { class: "size", x: 0, y: low - 4.3, "text-anchor": "middle", stroke: "none" }, `${CHECK} mm`));
    tell();
  }

  // Every drawing takes its size from one number, so a step of the slider moves nothing else.
  function apply() {
    home.style.setProperty("--dots", String(now()));
    parts.slider.value = now().toFixed(2);
    parts.slider.setAttribute("aria-valuetext", say("life-value", { mm: mm(CARD[state.upright ? "short" : "long"], 2),
      across: Math.round(now() * CARD[state.upright ? "short" : "long"]) }));
    tell();
  }

  function tell() {
    const wider = parts.view.scrollWidth > parts.view.clientWidth + 1;
    const pinched = Math.abs((globalThis.visualViewport?.scale ?? 1) - 1) > 0.01;
    parts.note.replaceChildren([say(pinched ? "life-pinched" : state.fitted ? "life-true" : "life-not-fitted"),
      ...(wider ? [say("life-wider")] : [])].join(" "));
  }

  function fit(value) {
    scale.screen = Math.min(MOST, Math.max(LEAST, value)) * dots();
    state.fitted = true;
    if (state.kept) keep();
    apply();
  }

  function select(name, all, text, take, start) {
    const list = make("select", { id: `life-${name}` }, ...all.map((one, i) => make("option", { value: i }, text(one))));
    list.selectedIndex = all.indexOf(start);
    list.addEventListener("change", () => {
      take(all[list.selectedIndex]);
      frameDrawn();
    });
    return all.length > 1 ? make("label", {}, `${say(`life-${name}`)} `, list) : null;
  }

  const nudge = (way) => {
    const button = make("button", { type: "button", "aria-label": say(way > 0 ? "life-wider-card" : "life-narrower-card") }, way > 0 ? "+" : book.MINUS);
    button.addEventListener("click", () => fit(now() + way * STEP));
    return button;
  };

  function build() {
    parts.card = make("div", { class: "life-card-room" });
    parts.slider = make("input", { type: "range", id: "life-slider", min: LEAST, max: MOST, step: STEP, "aria-describedby": "life-how" });
    parts.upright = make("input", { type: "checkbox", id: "life-upright" });
    parts.keep = make("input", { type: "checkbox", id: "life-keep" });
    parts.told = make("span", { class: "small" });
    parts.view = make("div", { class: "scroll life-scroll", tabindex: "0", role: "region", "aria-label": say("life-region") });
    parts.note = make("p", { class: "small life-note" });
    parts.slider.addEventListener("input", () => fit(Number(parts.slider.value)));
    parts.upright.addEventListener("change", () => {
      state.upright = parts.upright.checked;
      card();
      apply();
    });
    parts.keep.addEventListener("change", keep);
    // A card across is wider than a phone: there it is laid upright, along its short side.
    state.upright = home.clientWidth < CARD.long * now() * 1.7;
    parts.upright.checked = state.upright;
    parts.keep.checked = state.kept;
    home.replaceChildren(
      make("p", { id: "life-how" }, say("life-how")),
      make("div", { class: "life-tools" },
        make("label", { for: "life-slider" }, say("life-slider")),
        make("span", { class: "life-slide" }, nudge(-1), parts.slider, nudge(1)),
        make("label", {}, parts.upright, ` ${say("life-upright")}`)),
      parts.card,
      make("div", { class: "life-tools" },
        select("size", frame.sizes, (one) => one.label, (one) => (state.size = one), state.size),
        select("color", frame.colors, (one) => one.name, (one) => (state.color = one), state.color),
        make("label", {}, parts.keep, ` ${say("life-keep")}`), parts.told),
      parts.view, parts.note);
    card();
    apply();
    frameDrawn();
  }

  recall();
  chosen();
  book.forDrawing().then(build, () => home.replaceChildren(make("p", { class: "small" }, say("script-fault"))));
  addEventListener("resize", () => parts.slider && apply());
  globalThis.visualViewport?.addEventListener("resize", () => parts.slider && tell());
})();
