// Which lens suits a frame best for one prescription and one need; the same here and in a worker.
// SPDX-License-Identifier: AGPL-3.0-or-later
(function () {
  "use strict";

  const { shop, offer, cheapest } = globalThis.bevelbook;
  const kernel = globalThis.bevelKernel;
  const ORDER = { fits: 0, caution: 1, no: 2 };

  // What is least of one offer, for each need.
  const LEAST = {
    price: (found) => found.bill.total_cents,
    thinnest: (found) => Math.max(found.thickest.edge_max, found.center),
    lightest: (found) => found.weight + found.size.weight,
  };

  // The packages of a kind that are made in this prescription at all, whatever the frame.
  function makeable(ask, kind) {
    const made = (pack, eye, mirrored) =>
      eye === null || kernel.rules.largest_blank(pack.table, kernel.lens.nasal(eye, mirrored)) > 0;
    return shop.packages.filter(
      (pack) => pack.table.kind === kind && made(pack, ask.right, false) && made(pack, ask.left, true),
    );
  }

  // Packages that differ in nothing but their prices are one lens to the engine; of those the first with a price counts.
  const lensOf = new Map(shop.packages.map(({ id, table }) => [id, JSON.stringify({ ...table, prices: 0 })]));

  // What a pair in this size comes to in each package, cheapest first.  In one size all packages of a kind sit alike, so
  // the bill of a lens that is made is known before it is ground: see kernel/price.py.
  function byPrice(frame, size, color, ask, packs) {
    const priced = [];
    let made = null;
    for (const pack of packs) {
      const first = made ? null : offer(frame, size, color, pack, ask);
      if (first?.made) made = first;
      if (!made) continue;
      const bill = first ? first.bill : kernel.price.bill({ ...made.job, package: pack.table }, made.fit.right, made.fit.left);
      if (bill.priced) priced.push([bill.total_cents, pack]);
    }
    return priced.sort(([a], [b]) => a - b).map(([, pack]) => pack);
  }

  // Which of two answers comes first; null comes last, and a caution loses against none.
  const better = (one, other) => !other || (one && (one.order - other.order || one.value - other.value) < 0);

  // The best package in each size of a frame, null where nothing fits.
  function bestOf(frame, ask, packs, need) {
    const color = cheapest(frame);
    return frame.sizes.map((size) => {
      let best = null;
      const seen = new Set();
      for (const pack of need === "price" ? byPrice(frame, size, color, ask, packs) : packs) {
        if (need !== "price" && seen.has(lensOf.get(pack.id))) continue;
        const found = offer(frame, size, color, pack, ask);
        if (found.bill.priced || found.fit.verdict === "no") seen.add(lensOf.get(pack.id));
        if (found.fit.verdict === "no" || !found.bill.priced || !found.made) continue;
        const one = { order: ORDER[found.fit.verdict], value: LEAST[need](found), label: size.label, name: pack.name,
          cents: found.bill.total_cents, edge: Math.max(found.thickest.edge_max, found.center), weight: found.weight,
          verdict: found.fit.verdict };
        if (better(one, best)) best = one;
        if (need === "price" && one.order === 0) break; // all that follow cost as much or more
      }
      return best;
    });
  }

  Object.assign(globalThis.bevelbook, { makeable, bestOf, better });
})();
