// The chosen lens to the shop or to somebody else: a letter, and the link to copy.
// SPDX-License-Identifier: AGPL-3.0-or-later
(function () {
  "use strict";

  const book = globalThis.bevelbook;
  const { shop, make, say, money } = book;

  // A letter to the shop with everything in it; the visitor's own mail program shows it before it goes anywhere.
  function letter({ frame, size, color, pack, ask, bill }) {
    const total = bill.priced ? money(bill.total_cents) : say("no-price");
    const lines = [
      `${frame.maker} ${frame.name} ${size.label}, ${book.colorText(color)}`,
      `${pack.maker} ${pack.name}`,
      book.askWords(ask),
      `${say("quote-total")}: ${total} (${say("quote-list", { version: shop.list.version })})`,
      location.href,
    ];
    const subject = encodeURIComponent(say("letter-subject", { frame: frame.name, lens: pack.name }));
    return `mailto:${shop.email}?subject=${subject}&body=${encodeURIComponent(lines.join("\r\n"))}`;
  }

  function share(found, home) {
    const ask = make("a", { class: "button", href: letter(found) }, say("ask-shop"));
    ask.addEventListener("click", () => (ask.href = letter(found))); // the address may have changed since
    const copy = make("button", { type: "button" }, say("copy-link"));
    const told = make("span", { class: "small" });
    copy.addEventListener("click", async () => {
      try {
        await navigator.clipboard.writeText(location.href);
        book.tell(told, say("link-copied"));
      } catch {
        book.tell(told, location.href);
      }
    });
    home.replaceChildren(ask, " ", copy, " ", told);
  }

  Object.assign(book, { share });
})();
