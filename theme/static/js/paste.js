// The reader of slips is large and seldom wanted: it comes when its box is opened, and reads what stands there by then.
// SPDX-License-Identifier: AGPL-3.0-or-later
(function () {
  "use strict";

  const book = globalThis.bevelbook;
  document.querySelector(".rx-paste")?.addEventListener("toggle", () => {
    if (book.readSlip) return;
    book.later("../../data/slip-words.js").then(() => book.later("slip.js"))
      .catch(() => book.tell(document.getElementById("rx-slip-note"), book.say("slip-missing")));
  });
})();
