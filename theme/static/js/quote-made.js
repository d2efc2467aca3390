// What a visitor has picked as a quote of its own: an estimate, which quoting/show/issued.py would write the same.
// SPDX-License-Identifier: AGPL-3.0-or-later
(function () {
  "use strict";

  const book = globalThis.bevelbook;
  const { shop, lineKey, lineName, regionOf, toldOnce } = book;

  const hundredths = (value) => Math.round(value * 100);
  const thousandths = (value) => Math.round(value * 1000);
  const maybe = (value) => (value === null || value === undefined ? null : hundredths(value));
  const isSun = (color) => color.version !== "optical";

  function dayNumber(date) {
    return date.getFullYear() * 10000 + (date.getMonth() + 1) * 100 + date.getDate();
  }

  function frameRecord({ frame, size, color }) {
    const bare = (written) => written.replace("#", "").toLowerCase();
    return {
      id: frame.id, maker: frame.maker, name: frame.name, family: frame.family, mounting: frame.mounting,
      a: hundredths(size.a), b: hundredths(size.b), dbl: hundredths(size.dbl), ed: hundredths(size.ed), temple: hundredths(size.temple),
      color: color.id, color_name: color.name, front: bare(color.front), temples: bare(color.temples),
      weight: hundredths(size.weight), sun: isSun(color) ? 1 : 0,
    };
  }

  function lensRecord({ pack }) {
    const { id, maker, name, design, material, coating, light, table } = pack;
    return { id, maker, name, design, material, coating, kind: table.kind, light, impact_resistant: table.impact_resistant ? 1 : 0 };
  }

  function eyeRecord(eye) {
    if (!eye) return null;
    return {
      sphere: thousandths(eye.sphere), cylinder: thousandths(eye.cylinder), axis: eye.axis, add: thousandths(eye.add),
      prism_in: thousandths(eye.prism_in), prism_up: thousandths(eye.prism_up),
    };
  }

  function prescriptionRecord({ right, left, pd }) {
    return {
      right: eyeRecord(right), left: eyeRecord(left), pd: maybe(pd.binocular), pd_right: maybe(pd.right), pd_left: maybe(pd.left),
      pd_near: null, written: null,
    };
  }

  function figuresRecord(made, lens) {
    if (!made || lens.fault !== "") return null;
    return { edge_max: hundredths(lens.edge_max), center: hundredths(lens.center), weight: hundredths(lens.weight), edge_max_at: lens.edge_max_at };
  }

  function pairRecord(found) {
    const { ask, job, fit, bill } = found;
    const { pd_right, pd_left, height_right, height_left } = job.measures;
    const wished = Object.entries(ask.wishes ?? {}).filter(([, value]) => value === true).map(([name]) => name);
    return {
      frame: 0, lens: 0, prescription: 0, verdict: fit.verdict,
      measures: {
        used_pd_right: hundredths(pd_right), used_pd_left: hundredths(pd_left),
        used_height_right: hundredths(height_right), used_height_left: hundredths(height_left),
        height_right: maybe(ask.height.right), height_left: maybe(ask.height.left), tilt: null, wrap: null, child: ask.child ? 1 : 0,
      },
      right: figuresRecord(job.has_right, fit.right), left: figuresRecord(job.has_left, fit.left),
      lines: (bill.priced ? bill.lines : []).map((line) => ({
        key: lineKey(line, isSun(found.color)), text: lineName(line, found), cents: line.cents, listed: null, reason: "",
      })),
      tax_included: bill.tax_included_cents,
      reasons: toldOnce(fit.reasons).map(({ code, verdict, eye, needed, given }) =>
        ({ code, verdict, eye, needed: hundredths(needed), given: hundredths(given) })),
      estimated: found.estimated, wishes: { tint_depth: hundredths(ask.wishes?.tint_depth ?? 0), others: wished }, discounts: [],
      tint: null, mirror: null, passed: [],
    };
  }

  function quoteOf(found) {
    const day = dayNumber(new Date());
    const { tints, pair } = book.tintRecords(found);
    return {
      number: "", issued: day, expires: day, price_list: shop.list.version, currency: shop.currency, region: regionOf(found.ask).id,
      frames: [frameRecord(found)], lenses: [lensRecord(found)], prescriptions: [prescriptionRecord(found.ask)],
      alternatives: [[{ ...pairRecord(found), ...pair }]], note: "", tints,
    };
  }

  Object.assign(book, { quoteOf });
})();
