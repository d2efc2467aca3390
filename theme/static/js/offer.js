// One question to the engine and its answer, put together as quoting/offers.py does.
// SPDX-License-Identifier: AGPL-3.0-or-later
(function () {
  "use strict";

  const { shop, fill, apart, local, mm, power, plain, money, say } = globalThis.bevelbook;
  const kernel = globalThis.bevelKernel;
  const PLANO = { sphere: 0, cylinder: 0, axis: 180, add: 0, prism_in: 0, prism_up: 0 };
  const outlines = new Map();
  let [seats, seatsIn] = [[], null];

  function outline(size, family) {
    const key = [size.a, size.b, size.ed, family].join();
    if (!outlines.has(key)) outlines.set(key, kernel.outline.from_box(size.a, size.b, size.ed, family));
    return outlines.get(key);
  }

  function frameTable(frame, size) {
    const [xs, ys] = size.xs ? [size.xs, size.ys] : outline(size, frame.family);
    const { min_edge, edge_caution, edge_no } = shop.mountings[frame.mounting];
    const { a, b, dbl, ed, weight } = size;
    const { mounting, curve, wrap, tilt } = frame;
    const traced = size.xs !== undefined;
    return { a, b, dbl, ed, xs, ys, traced, mounting, min_edge, edge_caution, edge_no, curve, wrap, tilt, weight };
  }

  // A binocular PD less the one side gives the other; halved it gives both, and counts as measured.
  function monocular(pd, usual, sides) {
    let { right, left } = pd;
    if (pd.binocular !== null && right === null) right = left === null ? pd.binocular / 2 : pd.binocular - left;
    if (pd.binocular !== null && left === null && right !== null) left = pd.binocular - right;
    const known = (right !== null || !sides.includes("R")) && (left !== null || !sides.includes("L"));
    return [right ?? usual / 2, left ?? usual / 2, known];
  }

  function measures(size, ask) {
    const sides = (ask.right ? "R" : "") + (ask.left ? "L" : "");
    const usual = ask.child ? shop.defaults.child_pd : shop.defaults.pd;
    const [pd_right, pd_left, pdKnown] = monocular(ask.pd, usual, sides);
    const height = size.b / 2 + shop.defaults.pupil_above_center;
    const known = (!ask.right || ask.height.right !== null) && (!ask.left || ask.height.left !== null);
    const height_right = ask.height.right ?? ask.height.left ?? height;
    const height_left = ask.height.left ?? ask.height.right ?? height;
    const estimated = [...(pdKnown ? [] : ["pd"]), ...(known ? [] : ["height"])];
    return [{ pd_right, pd_left, height_right, height_left, child: ask.child, vertex: shop.defaults.vertex }, estimated];
  }

  const regionOf = (ask) => shop.regions.find((one) => one.id === ask.region) ?? shop.regions[0];

  // The visitor's own day: the time is moved so that the one of Greenwich reads as his.
  function today() {
    const now = new Date();
    return new Date(now - now.getTimezoneOffset() * 60000).toISOString().slice(0, 10);
  }

  // Discounts that must be named are named in a quote at most.
  function inForce(one, { day = today(), discounts }) {
    return (!one.asked || discounts?.includes(one.table.id)) && !(one.starts && day < one.starts) && !(one.ends && day > one.ends);
  }

  function moneyTable(color, ask) {
    return {
      frame_cents: color.cents,
      surcharges: shop.surcharges.map((one) => one.table),
      discounts: shop.discounts.filter((one) => inForce(one, ask)).map((one) => one.table),
      region: { ...regionOf(ask).table, ...ask.shipping },
      tax_included: shop.tax_included,
    };
  }

  function jobOf(frame, size, color, pack, ask) {
    const [measured, estimated] = measures(size, ask);
    const job = {
      frame: frameTable(frame, size),
      package: pack.table,
      limits: shop.limits,
      right: ask.right ?? PLANO,
      left: ask.left ?? PLANO,
      has_right: ask.right !== null,
      has_left: ask.left !== null,
      measures: measured,
      money: moneyTable(color, ask),
      options: { ...shop.options, ...ask.wishes },
    };
    return [job, job.frame.traced ? estimated : [...estimated, "outline"]];
  }

  // Where lenses sit in the outline that is asked about: the packages of a board share it.
  function seatsOf({ xs }) {
    if (seatsIn !== xs || seats.length > 20) [seats, seatsIn] = [[], xs];
    return seats;
  }

  function offer(frame, size, color, pack, ask) {
    const [job, estimated] = jobOf(frame, size, color, pack, ask);
    const { fit, bill } = kernel.quote.answer_among(job, seatsOf(job.frame));
    const lenses = [...(job.has_right ? [fit.right] : []), ...(job.has_left ? [fit.left] : [])];
    return {
      frame,
      size,
      color,
      pack,
      ask,
      job,
      fit,
      bill,
      lenses,
      estimated,
      made: lenses.every((lens) => lens.fault === ""),
      lensesCents: bill.lines.filter((line) => line.kind === "lenses").reduce((sum, line) => sum + line.cents, 0),
      weight: lenses.reduce((sum, lens) => sum + lens.weight, 0),
      thickest: lenses.reduce((most, lens) => (lens.edge_max > most.edge_max ? lens : most)),
      center: Math.max(...lenses.map((lens) => lens.center)),
    };
  }

  // An amount, or that there is none where a lens could be made.
  const cost = (found, cents) => (found.bill.priced ? money(cents) : found.made ? say("no-price") : "");

  // Work in the pauses of the page, piece by piece, until there is none left or `go` says no; where there is no pause
  // for `longest` milliseconds, the next piece is done all the same.
  const idle = globalThis.requestIdleCallback ?? ((work) => setTimeout(() => work({ timeRemaining: () => 8 }), 30));
  function inPauses(pieces, go, longest = 1000) {
    let next = 0;
    const some = (deadline) => {
      if (!go()) return;
      const end = performance.now() + 24; // a pause may be said to be twice as long, and a key may come in it
      do pieces[next++]?.();
      while (next < pieces.length && deadline.timeRemaining() > 3 && performance.now() < end && go());
      if (next < pieces.length) idle(some, { timeout: longest });
    };
    idle(some, { timeout: longest });
  }

  // In tasks of a few milliseconds each: the page shows what is there, and hears its keys, between any two of them.
  function inTasks(pieces, still, then = () => {}) {
    const some = () => {
      if (!still()) return;
      for (const end = performance.now() + 6; pieces.length && performance.now() < end; ) pieces.shift()();
      if (pieces.length) setTimeout(some);
      else then();
    };
    setTimeout(some);
  }

  // The engine runs several times as fast once the browser has seen it at work: so let it work while the visitor reads.
  function warmUp(frame, go) {
    const typical = (sphere, cylinder, axis) => ({ ...PLANO, sphere, cylinder, axis, add: 1.5 });
    const ask = { right: typical(-3.25, -0.75, 20), left: typical(2.5, -1.25, 165), child: false, region: "",
      pd: { binocular: null, right: 31, left: 32 }, height: { right: null, left: null } };
    const piece = (pack) => () => offer(frame, frame.sizes[0], frame.colors[0], pack, ask);
    inPauses([...shop.packages, ...shop.packages].map(piece), go);
  }

  // Reasons that both eyes share in the same numbers become one for both; the worst come first.
  function toldOnce(reasons) {
    const seen = new Map();
    for (const reason of reasons) {
      const key = [reason.code, reason.verdict, reason.needed, reason.given].join();
      seen.set(key, seen.has(key) ? { ...seen.get(key), eye: "B" } : reason);
    }
    const all = [...seen.values()];
    return [...all.filter((one) => one.verdict === "no"), ...all.filter((one) => one.verdict !== "no")];
  }

  const UNITS = { D: power, mm: (value) => mm(value, 1) };

  function sentence(reason, pack, which) {
    const { reasons, bifocal, sides, ways } = shop.words;
    const found = (pack.table.kind === "bifocal" && bifocal[reason.code]) || reasons[reason.code];
    const write = UNITS[found.unit] ?? plain;
    const way = ways[reason.given < reason.needed ? "flatter" : "steeper"];
    const text = fill(found[which], { needed: write(reason.needed), given: write(reason.given), way });
    const side = sides[reason.eye];
    return side ? `${side}: ${text[0].toLowerCase()}${text.slice(1)}` : text;
  }

  function lineKey(line, sun) {
    if (line.code === "frame") return sun ? "frame sun" : "frame";
    if (line.code === "lens") return `lens ${line.eye}`;
    if (line.code === "surcharge") {
      return line.count === 2 ? "surcharge 2" : line.eye === "B" ? "surcharge" : `surcharge ${line.eye}`;
    }
    if (line.code === "shipping") return line.cents ? "shipping" : "shipping free";
    return line.code === "tax" ? `tax ${line.id}` : line.code;
  }

  // What a line names that is neither frame nor lens: a surcharge, a discount, a region, a rate in percent with a point.
  function lineName({ code, id }, { ask }) {
    const { name, table } = regionOf(ask);
    if (code === "shipping") return name;
    if (code === "tax") return (table[`tax_${id}`] / 100).toFixed(2).replace(/\.?0+$/, "") + " %";
    return (code === "discount" ? shop.discounts : shop.surcharges).find((one) => one.table.id === id)?.text ?? "";
  }

  function lineText(line, found) {
    const { frame, size, color, pack } = found;
    const name = lineName(line, found);
    return fill(shop.words.lines[lineKey(line, color.version !== "optical")], {
      frame: `${apart(frame.maker)} ${apart(frame.name)} ${size.label}, ${color.name}`,
      lens: `${pack.maker} ${pack.name}`,
      name,
      region: name,
      rate: local(name),
    });
  }

  Object.assign(globalThis.bevelbook, {
    offer, jobOf, cost, warmUp, inPauses, inTasks, outline, frameTable, toldOnce, sentence, lineText, lineKey, lineName, regionOf, monocular,
  });
})();
