// What a quote would be today: the same frames, lenses, eyes and measurements, by the page's own engine.
// SPDX-License-Identifier: AGPL-3.0-or-later
(function () {
  "use strict";

  const { shop, offer, lineKey, lineName, regionOf, later } = globalThis.bevelbook;

  // All frames of the shop, fetched once and only where a quote was opened; [] where they cannot be had.
  const allFrames = () => later("../../data/frames.js").then(() => globalThis.bevelFrames ?? [], () => []);

  const eyeOf = (eye) => eye && {
    sphere: eye.sphere / 1000, cylinder: eye.cylinder / 1000, axis: eye.axis, add: eye.add / 1000,
    prism_in: eye.prism_in / 1000, prism_up: eye.prism_up / 1000,
  };
  const length = (value) => (value === null ? null : value / 100);

  function askOf(quote, pair) {
    const rx = quote.prescriptions[pair.prescription];
    const { height_right, height_left, child } = pair.measures;
    const wishes = { tint_depth: pair.wishes.tint_depth / 100 };
    for (const name of pair.wishes.others) if (name in shop.options) wishes[name] = true;
    return {
      right: eyeOf(rx.right), left: eyeOf(rx.left), pd: { binocular: length(rx.pd), right: length(rx.pd_right), left: length(rx.pd_left) },
      height: { right: length(height_right), left: length(height_left) }, child: child === 1, region: quote.region, wishes,
      discounts: pair.discounts,
    };
  }

  // What the shop still has of a pair: {frame, size, color, pack}, or the name of what is gone.
  function choiceOf(quote, pair, all) {
    const [seen, lens] = [quote.frames[pair.frame], quote.lenses[pair.lens]];
    const frame = all.find((one) => one.id === seen.id);
    const size = frame?.sizes.find((one) => one.key === `${seen.a / 100}-${seen.dbl / 100}`);
    const color = frame?.colors.find((one) => one.id === seen.color);
    if (!size || !color) return { gone: `${seen.maker} ${seen.name}, ${seen.color_name}` };
    const pack = shop.packages.find((one) => one.id === lens.id);
    if (!pack) return { gone: `${lens.maker} ${lens.name}` };
    const { tilt, wrap } = pair.measures;
    const worn = { ...frame, tilt: length(tilt) ?? frame.tilt, wrap: length(wrap) ?? frame.wrap };
    return { frame: worn, size, color, pack };
  }

  const goods = (bill) => bill.lines.filter((one) => ["frame", "lenses", "discount"].includes(one.kind)).reduce((sum, one) => sum + one.cents, 0);

  // Pairs in one parcel pay shipping once, with the first of them and for the worth of all, as quoting/terms.py has it.
  function shippingOf({ free_from_cents: free }, at, others) {
    if (at > 0) return { shipping_cents: 0 };
    const beside = others.reduce((sum, one) => sum + goods(one.found.bill), 0);
    return beside && free ? { free_from_cents: Math.max(1, free - beside) } : {};
  }

  // The lines of a pair's bill as a quote has them.
  const linesOf = (found) => found.bill.lines.map((line) => ({
    key: lineKey(line, found.color.version !== "optical"), text: lineName(line, found), cents: line.cents,
  }));

  // One alternative today: {pairs: [{found, lines, total}], total}, or {gone} or {misfit}.  Shipping is paid with the first pair.
  function together(quote, pairs, all) {
    const choices = pairs.map((pair) => choiceOf(quote, pair, all));
    const gone = choices.find((one) => one.gone);
    if (gone) return { gone: gone.gone };
    const made = [];
    for (let at = pairs.length - 1; at >= 0; at -= 1) {
      const { frame, size, color, pack } = choices[at];
      const ask = askOf(quote, pairs[at]);
      const found = offer(frame, size, color, pack, { ...ask, shipping: shippingOf(regionOf(ask).table, at, made) });
      if (found.fit.verdict === "no" || !found.bill.priced) return { misfit: pack.name };
      made.unshift({ found, lines: linesOf(found), total: found.bill.total_cents });
    }
    return { pairs: made, total: made.reduce((sum, one) => sum + one.total, 0) };
  }

  // Each alternative today; null for each where the shop's frames cannot be had, or it sends nothing to that region any more.
  async function requoted(quote) {
    const all = await allFrames();
    const known = all.length > 0 && shop.regions.some((one) => one.id === quote.region);
    return quote.alternatives.map((pairs) => (known ? together(quote, pairs, all) : null));
  }

  Object.assign(globalThis.bevelbook, { requoted });
})();
