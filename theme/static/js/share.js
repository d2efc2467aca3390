// The chosen lens to the shop or to somebody else: a letter, and a link that holds all of it, whatever changes later.
// SPDX-License-Identifier: AGPL-3.0-or-later
(function () {
  "use strict";

  const book = globalThis.bevelbook;
  const { shop, make, say, money } = book;
  const here = document.currentScript.src;

  // Where it cannot be packed, the address of this page still leads to the same lens in the same frame.
  async function linkTo(found) {
    try {
      await book.later("../../data/quotes.js");
      const text = await book.unsignedQuote(book.quoteOf(found));
      if (text) return new URL(`../../quote/index.html#${text}`, here).href;
    } catch (error) {
      console.warn(error);
    }
    return location.href;
  }

  // A letter to the shop with everything in it; the visitor's own mail program shows it before it goes anywhere.
  function letter(found, link) {
    const { frame, size, color, pack, ask, bill, fit } = found;
    const total = bill.priced && fit.verdict !== "no" ? money(bill.total_cents) : say("no-price");
    const lines = [
      `${frame.maker} ${frame.name} ${size.label}, ${book.colorText(color)}`,
      `${pack.maker} ${pack.name}: ${say(`verdict-${fit.verdict}`)}`,
      ...[book.tintLine(found)].filter(Boolean),
      book.askWords(ask),
      `${say("quote-total")}: ${total} (${say("quote-list", { version: shop.list.version })})`,
      link,
    ];
    const subject = encodeURIComponent(say("letter-subject", { frame: frame.name, lens: pack.name }));
    return `mailto:${shop.email}?subject=${subject}&body=${encodeURIComponent(lines.join("\r\n"))}`;
  }

  function doing(words, act, attributes) {
    const button = make("button", { type: "button", ...attributes }, words);
    button.addEventListener("click", act);
    return button;
  }

  const way = (words, id, attributes) => doing(words, () => {
    const there = document.getElementById(id);
    there.scrollIntoView({ block: "start" });
    there.focus({ preventScroll: true });
  }, attributes);

  // By keyboard alone: from the picked row past all rows between to what it costs, and back.
  const on = way(say("bar-quote"), "live-quote", { class: "past" });
  const back = doing(say("back-to-board"), () =>
    (document.querySelector("#live-table [name=chosen]:checked") ?? document.querySelector("#live-table .scroll")).focus(), { class: "past" });

  function between(found) {
    const cell = found && book.rowOf(found.pack).compare.closest("td");
    if (!cell) on.remove();
    else if (on.parentNode !== cell) cell.prepend(on);
  }

  // What was picked, with the way to what is said of it; nothing where nothing is.
  async function bar(found, beside) {
    await book.later("../css/views.css");
    const home = document.getElementById("live-bar");
    between(found);
    const priced = found && found.bill.priced && found.fit.verdict !== "no";
    home.hidden = !found && beside.length < 2;
    home.replaceChildren(
      found ? make("span", {}, found.pack.name) : "",
      priced ? make("span", {}, `${say("quote-total")} `, make("b", { class: "num" }, money(found.bill.total_cents))) : "",
      found ? way(say("bar-quote"), "live-quote") : "",
      beside.length < 2 ? "" : way(say("bar-compare", { count: beside.length }), "live-compare"),
    );
  }

  // On paper a chosen lens is a sheet of its own: what it is of, the prescription as read, the address as text; of the
  // list of all cautions nothing that is about other lenses, and nothing twice.
  function sheet({ frame, size, color, pack, ask }, quote, link) {
    quote.firstChild.after(make("div", { class: "on-paper" },
      make("p", {}, make("b", {}, `${frame.maker} ${frame.name} ${size.label}, ${book.colorText(color)}`)),
      make("p", {}, make("b", {}, `${pack.maker} ${pack.name}`), `, ${pack.material}, ${pack.coating}`),
      make("p", { class: "figure" }, say("panel-read", { text: book.askWords(ask) }))));
    const items = document.getElementById("cautions")?.parentNode.getElementsByTagName("li") ?? [];
    const said = Array.from(items, (item) => item.textContent);
    const notes = Array.from(quote.querySelector(".notes").children);
    for (const note of notes) note.classList.toggle("twice", said.includes(note.textContent));
    const own = new Set(notes.map((note) => note.textContent));
    const about = new Set(Object.values(shop.cautions).flat());
    for (const item of items) item.classList.toggle("other", about.has(item.textContent) && !own.has(item.textContent));
    quote.firstChild.after(back);
    globalThis.onbeforeprint = () => link.replaceChildren(location.href);
    link.replaceChildren(location.href);
  }

  function share(found, home, quote) {
    if (!home.isConnected) return;
    book.later("../css/picked.css");
    const link = linkTo(found);
    const told = make("span", { class: "small" });
    const ask = make("a", { class: "button", href: letter(found, location.href) }, say("ask-shop"));
    link.then((address) => (ask.href = letter(found, address)));
    const button = (key, act) => {
      const made = make("button", { type: "button" }, say(key));
      made.addEventListener("click", async () => act(await link));
      return made;
    };
    const pass = (url) => navigator.share({ title: document.title, url }).catch(() => {});
    const text = make("span", { class: "on-paper link" });
    home.replaceChildren(ask, " ", ...(navigator.share ? [button("share-link", pass), " "] : []),
      button("copy-link", (address) => book.copied(address, say("link-copied"), (said) => book.tell(told, said))), " ",
      button("print", () => globalThis.print()), " ", told, text);
    sheet(found, quote, text);
  }

  Object.assign(book, { share, bar });
})();
