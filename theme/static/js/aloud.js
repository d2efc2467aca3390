// What changes on a page is told to those who hear it: once it has come to rest, all of it in one sentence after another.
// SPDX-License-Identifier: AGPL-3.0-or-later
(function () {
  "use strict";

  const REST_MS = 700; // after the last change; a new one begins the wait anew
  const place = document.getElementById("aloud");
  const news = new Map();
  const working = new Set();
  let rest = 0;

  function speak() {
    if (working.size) return;
    const text = [...news.values()].filter(Boolean).map((one) => (/[.!?\u2026]$/.test(one) ? one : `${one}.`)).join(" ");
    news.clear();
    if (text && text !== place.textContent) place.replaceChildren(text);
  }

  // Words in their place, seen at once and heard in time.  `more`: these are not the last, and nothing is heard before those.
  function tell(where, text, more = false) {
    where.replaceChildren(text);
    hear(where, text, more);
  }

  // The same for words that are there already.
  function hear(where, text, more = false) {
    if (more) working.add(where);
    else {
      working.delete(where);
      news.set(where, text);
    }
    clearTimeout(rest);
    rest = setTimeout(speak, REST_MS);
  }

  Object.assign(globalThis.bevelbook, { tell, hear, news });
})();
