// A line of answer wherever a page names a lens in a frame: on lens pages, beside combinations.
// SPDX-License-Identifier: AGPL-3.0-or-later
(function () {
  "use strict";

  const book = globalThis.bevelbook;
  const { shop, make, say, mm, money } = book;
  const frames = new Map((globalThis.bevelFrames ?? []).map((frame) => [frame.id, frame]));
  const packs = new Map(shop.packages.map((pack) => [pack.id, pack]));
  const places = [...document.querySelectorAll("[data-answer]")];
  const SIGNS = { fits: "\u2713", caution: "!", no: "\u00d7" };
  const status = document.getElementById("answers-status");
  if (!places.length) return;

  function offerFor(place, ask) {
    const { frameId: id, size: key, color, pack, wishes } = place.dataset;
    const frame = frames.get(id);
    const size = frame?.sizes.find((one) => one.key === key);
    const lens = packs.get(pack);
    if (!size || !lens) return null;
    const shown = frame.colors.find((one) => one.id === color) ?? book.cheapest(frame);
    return book.offer(frame, size, shown, lens, wishes ? { ...ask, wishes: { ...ask.wishes, ...JSON.parse(wishes) } } : ask);
  }

  function words(found) {
    const { verdict } = found.fit;
    const sign = make("span", { class: "mark", "aria-hidden": "true" }, SIGNS[verdict]);
    const told = book.toldOnce(found.fit.reasons).map((one) => book.sentence(one, found.pack, "customer"));
    if (verdict === "no") return [sign, " ", say("answer-no", { why: told[0] ?? "" })];
    const edge = mm(Math.max(found.thickest.edge_max, found.center));
    const price = found.bill.priced ? money(found.bill.total_cents) : say("no-price");
    return [sign, " ", say(`answer-${verdict}`, { edge, price, why: told[0] ?? "" })];
  }

  book.onAsk((ask) => {
    const empty = book.isEmpty(ask);
    let fits = 0;
    for (const place of places) {
      const found = empty ? null : offerFor(place, ask);
      place.hidden = !found;
      place.replaceChildren(...(found ? words(found) : []));
      place.className = `answer ${found ? found.fit.verdict : ""}`;
      if (found && found.fit.verdict !== "no") fits += 1;
    }
    if (status) book.tell(status, empty ? "" : say("answers-fit", { fits, all: places.length }));
    else if (places.length === 1) book.hear(places[0], [...places[0].childNodes].slice(1).map((node) => node.textContent).join("").trim());
  });
})();
