// What would make a lens fit: what the kernel finds, and the shop's other packages, as quoting/remedies.py has them.
// SPDX-License-Identifier: AGPL-3.0-or-later
(function () {
  "use strict";

  const book = globalThis.bevelbook;
  const { shop, make, fill, say, mm, power, plain } = book;
  const { best_of, ordered, remedies } = globalThis.bevelKernel.remedies;
  const { changes, units, then } = globalThis.bevelRemedies;
  const NO_PRICE = 1e9;
  const WRITE = { D: power, mm: (value) => mm(value, 1), plain };

  // The best of some choices, as a remedy of its own kind.
  function best(what, tried, codes, taken) {
    const cents = tried.map(({ bill }) => (bill.priced ? bill.total_cents : NO_PRICE));
    const number = best_of(tried.map(({ fit }) => fit.verdict), cents);
    if (number < 0) return [];
    taken.push(tried[number]);
    return [{ what, codes, low: 0, high: 0, number: taken.length - 1, verdict: tried[number].fit.verdict }];
  }

  // `offers`: all packages in this size, which the board has at hand.
  function others(found, offers, sizes, taken) {
    const { frame, color, pack, ask, fit } = found;
    const codes = [...new Set(fit.reasons.filter((one) => one.verdict === "no").map((one) => one.code))];
    const same = offers.filter((one) => one.pack.designId === pack.designId && one.pack !== pack);
    const like = offers.filter(({ pack: one }) =>
      one.designId !== pack.designId && one.table.kind === pack.table.kind && one.light === pack.light);
    let first = best("package", same, codes, taken);
    if (!first.length) {
      const pairs = sizes.flatMap((size) => same.map((one) => book.offer(frame, size, color, one.pack, ask)));
      first = best("package-in-size", pairs, codes, taken);
    }
    return [...first, ...best("instead", like, codes, taken)];
  }

  // All that helps, best first, each with what is changed, and a text that says the verdict too.  What leaves other reasons
  // is told only where nothing better is known.
  function remediesOf(found, offers) {
    const { frame, size, color, pack, ask, fit } = found;
    const sizes = frame.sizes.filter((one) => one !== size);
    const jobs = sizes.map((one) => book.jobOf(frame, one, color, pack, ask)[0]);
    const rims = Object.entries(shop.mountings).filter(([name]) => name !== frame.mounting);
    const mountings = rims.map(([mounting, { min_edge, edge_caution, edge_no }]) => ({ mounting, min_edge, edge_caution, edge_no }));
    const all = remedies(found.job, jobs, mountings, !found.estimated.includes("height"));
    const taken = [];
    if (fit.verdict === "no" && fit.right.fault !== "impossible") all.push(...others(found, offers, sizes, taken));
    const told = ordered(all);
    const better = told.filter((one) => one.verdict !== "no");
    return (better.length ? better : told).map((one) => {
      const { what, number } = one;
      const other = ["package", "package-in-size", "instead"].includes(what) ? taken[number] : null;
      const to = { pack: other?.pack, size: what === "size" ? sizes[number] : what === "package-in-size" ? other.size : undefined };
      const write = WRITE[units[what] ?? "plain"];
      const change = fill(changes[what], { low: write(one.low), high: write(one.high), size: to.size?.label,
        package: to.pack?.name, mounting: what === "mounting" ? rims[number][1].text : "" });
      return { ...one, ...to, change, text: `${change}: ${then[one.verdict]}` };
    });
  }

  // Where the list of frames begins for what another frame would have to be like.
  function listed({ what, low }, { size, pack }) {
    const kind = `kind=${pack.table.kind}`;
    if (what === "lens-height") return `../index.html#b=${low}&${kind}`;
    return what === "lens-width" ? `../index.html#a=${low}&dbl=${size.dbl}&${kind}` : "";
  }

  // The remedies as a list; `go` is told which size and package a visitor wants to see.
  function remedyList(found, all, go) {
    const items = all.map((one) => {
      const there = listed(one, found);
      const button = one.pack || one.size ? make("button", { type: "button", "aria-label": `${say("remedy-show")}: ${one.text}` }, say("remedy-show")) : "";
      button && button.addEventListener("click", () => go(one));
      return make("li", {}, one.text, " ", button, there ? make("a", { href: there }, say("remedy-frames")) : "");
    });
    const takers = make("a", { href: `../../lenses/${found.pack.id}/index.html#takers` }, say("remedy-takers"));
    return make("ul", { class: "mend" }, ...items, found.fit.verdict === "no" ? make("li", {}, takers) : "");
  }

  const SIGNS = { fits: "\u2713", caution: "!" };

  // In a row of the board: the best in the line that is kept for it, all of it behind that.  What was found is kept.
  function rowHelp(found, offers, details, go) {
    found.helps ??= remediesOf(found, offers);
    const one = found.helps.find(({ verdict }) => verdict !== "no");
    details.firstChild.replaceChildren(...(one
      ? [make("span", { class: `mark ${one.verdict}`, "aria-hidden": "true" }, SIGNS[one.verdict]), " ", one.change,
        make("span", { class: "sr" }, one.text.slice(one.change.length))]
      : [say("remedy-none")]));
    details.querySelector(".mend")?.remove();
    details.append(remedyList(found, found.helps, go));
  }

  Object.assign(book, { remedies: remediesOf, remedyList, rowHelp });
})();
