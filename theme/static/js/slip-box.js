// A slip pasted as text: each piece beside how it was read, before anything is computed from it.
// SPDX-License-Identifier: AGPL-3.0-or-later
(function () {
  "use strict";

  const book = globalThis.bevelbook;
  const { make, say } = book;
  const at = (id) => document.getElementById(id);
  const [box, note] = [at("rx-slip"), at("rx-slip-note")];

  // What the slip does not say stays as the visitor had it; before the first slip, that is.
  const measured = () => ({ pd: book.ask().pd, height: book.ask().height });
  let own = measured();
  box.addEventListener("focus", () => {
    if (box.value === "") own = measured();
  });

  // "-2.25 -> Right eye, sphere -2.25"
  function showPieces(pieces) {
    const rows = pieces.map(({ text, meaning, read }) =>
      make("li", { class: read ? null : "unread" }, make("q", { class: "figure" }, text.replace(/\s+/g, " ")), " \u2192 ",
        meaning.replace(/^./u, (letter) => letter.toUpperCase())));
    at("rx-slip-pieces").replaceChildren(...rows);
  }

  function paste() {
    const text = box.value;
    if (!book.readSlip || text.trim() === "") return clear();
    const { ask: slip, unread, pieces } = book.readSlip(text);
    showPieces(pieces);
    const known = !book.isEmpty(slip);
    note.classList.toggle("good", known && !unread.length && !pieces.some((piece) => piece.late));
    const late = known && pieces.some((piece) => piece.late) ? ` ${say("slip-late", { months: book.shop.months })}` : "";
    book.tell(note, (unread.length
      ? say("slip-unread", { pieces: unread.map((text) => say("slip-piece", { text })).join(", ") })
      : say(known ? "slip-read" : "slip-nothing")) + late);
    if (!known) return;
    const { child, region } = book.ask();
    const given = Object.values(slip.pd).some((value) => value !== null);
    book.showAsk({ ...slip, pd: given ? slip.pd : own.pd, height: own.height, child, region });
  }

  function clear() {
    showPieces([]);
    note.replaceChildren();
  }

  // What a slip that is taken away left to be mended goes with it.
  function forget() {
    for (const field of document.querySelectorAll("input[data-field]")) {
      if (field.value !== "?") continue;
      field.value = "";
      field.dispatchEvent(new Event("input", { bubbles: true }));
    }
  }

  box.addEventListener("input", () => {
    paste();
    if (box.value.trim() === "") forget();
  });
  book.clearSlip = () => {
    box.value = "";
    clear();
  };
  paste(); // what stands there by now
})();
