// The same reckoning beside the page, where the browser allows it.
// SPDX-License-Identifier: AGPL-3.0-or-later
(function () {
  "use strict";

  const { makeable, bestOf } = globalThis.bevelbook;
  const frames = globalThis.bevelFrames;
  let latest = 0;

  onmessage = ({ data: { turn, ask, kind, need, day } }) => {
    latest = turn;
    const asked = { ...ask, day };
    const packs = makeable(asked, kind);
    let at = 0;
    (function some() {
      if (turn !== latest) return;
      const found = [];
      for (const end = performance.now() + 25; at < frames.length && performance.now() < end; at += 1) {
        found.push([at, bestOf(frames[at], asked, packs, need)]);
      }
      postMessage({ turn, found, done: at === frames.length });
      if (at < frames.length) setTimeout(some, 0);
    })();
  };
})();
