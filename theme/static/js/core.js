// What every script of the site uses: small makers of elements, and amounts as the build writes them.
// SPDX-License-Identifier: AGPL-3.0-or-later
(function () {
  "use strict";

  const book = (globalThis.bevelbook ??= {});
  const shop = globalThis.bevelShop;
  const MINUS = "\u2212";
  const SVG = "http://www.w3.org/2000/svg";

  // Text stays text: whatever a name or a fragment holds, it is never read as markup.
  function filled(node, attributes, children) {
    for (const [name, value] of Object.entries(attributes ?? {})) {
      if (value === true) node.setAttribute(name, "");
      else if (value !== false && value !== null && value !== undefined) node.setAttribute(name, value);
    }
    node.append(...children.flat().filter((child) => child !== null && child !== undefined && child !== ""));
    return node;
  }
  const make = (name, attributes, ...children) => filled(document.createElement(name), attributes, children);
  const draw = (name, attributes, ...children) => filled(document.createElementNS(SVG, name), attributes, children);

  // A number that was written with a point, with the decimal sign of the language.
  const local = (written) => String(written).replace(".", shop.decimal);

  // The page's own words, with what stands in braces filled in.
  // A name that is read from the right keeps its direction to itself: numbers beside it stay as they are.
  const apart = (name) => (/[\u0590-\u08ff\ufb1d-\ufefc]/.test(name) ? `\u2068${name}\u2069` : name);
  const given = (value) => (typeof value === "number" ? local(value).replace("-", MINUS) : apart(value));
  const fill = (text, values) => text.replace(/\{(\w+)\}/g, (whole, name) => (name in values ? given(values[name]) : whole));
  const plural = new Intl.PluralRules(shop.language);

  // Words that change with a number are told for each of its kinds (one, few, other ...), and by which number.
  function say(key, values = {}) {
    const words = shop.words.page[key];
    return fill(words.by ? (words[plural.select(values[words.by])] ?? words.other) : words, values);
  }

  // Decimals as Python writes them: a number exactly halfway goes to the even digit, where toFixed goes up.
  function fixed(value, places) {
    const size = Math.abs(value);
    if ((size * 2 ** (places + 1)) % 2 !== 1) return size.toFixed(places);
    const floor = Math.floor(size * 10 ** places);
    return ((floor + (floor % 2)) / 10 ** places).toFixed(places);
  }

  function mm(value, places = 1) {
    const written = fixed(value, places);
    return local(value < 0 && Number(written) !== 0 ? MINUS + written : written);
  }

  function power(value) {
    if (value === 0) return local("0.00");
    const eighth = Math.round(Math.abs(value) * 1000) % 10 !== 0;
    return (value < 0 ? MINUS : "+") + local(fixed(value, eighth ? 3 : 2));
  }

  // A number without needless zeros, as a rule's plain numbers are written.
  const plain = (value) => (value < 0 ? "-" : "") + local(fixed(value, 2).replace(/\.?0+$/, ""));

  function money(cents) {
    const form = shop.money;
    const digits = String(Math.abs(cents)).padStart(3, "0");
    let whole = digits.slice(0, -2);
    const groups = [];
    for (let size = form.last; form.group && whole.length > size; size = form.others) {
      groups.unshift(whole.slice(-size));
      whole = whole.slice(0, -size);
    }
    const number = [whole, ...groups].join(form.group) + form.decimal + digits.slice(-2);
    return cents < 0 ? form.before_less + number + form.after_less : form.before + number + form.after;
  }

  // Scripts and sheets that few visitors need, each asked for once; classic ones, so that this works from disk too.
  const here = globalThis.document?.currentScript?.src;
  const asked = new Map();
  function later(path, from = here) {
    const address = new URL(path, from).href;
    if (!asked.has(address)) {
      asked.set(address, new Promise((done, failed) => {
        const node = path.endsWith(".css") ? make("link", { rel: "stylesheet", href: address }) : make("script", { src: address });
        node.addEventListener("load", done);
        node.addEventListener("error", () => {
          asked.delete(address);
          failed(new Error(path));
        });
        document.head.append(node);
      }));
    }
    return asked.get(address);
  }

  // What every drawing of a chosen lens or frame needs beside its own script.
  const forDrawing = () => Promise.all([later("../css/views.css"), later("../../data/views.js"), later("fronts.js", document.baseURI)]);

  // A part of a page that is closed brings its script when it is opened.
  globalThis.document?.addEventListener("toggle", (event) => {
    const { script } = event.target.dataset;
    if (event.target.open && script) later(script).catch(() => event.target.append(make("p", { class: "small" }, say("script-fault"))));
  }, true);

  // A thing done at most once a frame, however often it is asked for.
  function soon(work) {
    let waiting = false;
    return () => {
      if (waiting) return;
      waiting = true;
      requestAnimationFrame(() => {
        waiting = false;
        work();
      });
    };
  }

  Object.assign(book, { shop, make, draw, fill, apart, say, local, fixed, mm, power, plain, money, soon, later, forDrawing, MINUS });
})();
