// How an opened quote stands: who signed it, and whether it still counts, as quoting/quoted/trust.py says it.
// SPDX-License-Identifier: AGPL-3.0-or-later
(function () {
  "use strict";

  const { keys, withdrawn } = globalThis.bevelQuotes;

  // true or false; null where this browser cannot tell: an old one, or a page that did not come over a safe line.
  async function good(key, signature, message) {
    const subtle = globalThis.crypto?.subtle;
    if (!subtle) return null;
    try {
      const bytes = Uint8Array.from(atob(key.replace(/-/g, "+").replace(/_/g, "/")), (sign) => sign.charCodeAt(0));
      const made = await subtle.importKey("raw", bytes, { name: "Ed25519" }, false, ["verify"]);
      return await subtle.verify({ name: "Ed25519" }, made, signature, message);
    } catch (error) {
      return error.name === "NotSupportedError" ? null : false;
    }
  }

  async function hashOf(text) {
    const digest = await globalThis.crypto.subtle.digest("SHA-256", new TextEncoder().encode(text));
    return [...new Uint8Array(digest)].map((byte) => byte.toString(16).padStart(2, "0")).join("");
  }

  // Where the page did not come over a safe line, nobody can tell.
  async function calledBack(number) {
    return withdrawn.length > 0 && Boolean(globalThis.crypto?.subtle) && withdrawn.includes(await hashOf(number));
  }

  function today() {
    const now = new Date();
    return now.getFullYear() * 10000 + (now.getMonth() + 1) * 100 + now.getDate();
  }

  // A day of the shop is over when it is over everywhere it may be quoted: what counts is the visitor's own calendar.
  async function standing(found, day = today()) {
    if (!found.key) return "estimate";
    const key = keys.find((one) => one.id === found.key);
    if (!key) return "unknown-key";
    const sound = await good(key.key, found.signature, found.message);
    if (sound === false) return "altered";
    if (key.recalled) return "recalled-key";
    if (key.retired !== null && found.quote.issued > key.retired) return "late-key";
    if (await calledBack(found.quote.number)) return "withdrawn";
    if (sound === null) return "unverified";
    return day <= found.quote.expires ? "held" : "expired";
  }

  Object.assign(globalThis.bevelbook, { standingOf: standing });
})();
