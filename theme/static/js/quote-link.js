// The text behind the # of a quote's link: made, found again in what mail programs made of it, and opened,
// as quoting/quoted/armor.py and sealing.py do.
// SPDX-License-Identifier: AGPL-3.0-or-later
(function () {
  "use strict";

  const { packed, unpacked } = globalThis.bevelbook;
  const END = "z";
  const KEY_BYTES = 4;
  const SIGNATURE_BYTES = 64;
  const MOST_BYTES = 200000;
  const MOST_TEXT = 200000;
  const MOST_PIECES = 80;
  const DASHES = { "\u2010": "-", "\u2011": "-", "\u2012": "-", "\u2013": "-", "\u2014": "--", "\u2212": "-", "\ufe63": "-", "\uff0d": "-" };
  const UTF8 = new TextEncoder();

  function oneSign(whole, digits) {
    const code = parseInt(digits, 16);
    return code < 0x7f ? String.fromCharCode(code) : " ";
  }

  // Without what mail programs put in: soft breaks, coded signs (twice over), folded lines, dashes.
  function plain(text) {
    const bare = text.replace(/[\u00ad\u200b-\u200d\u2060\ufeff]/g, "").replace(/[\u2010-\u2014\u2212\ufe63\uff0d]/g, (sign) => DASHES[sign] ?? sign);
    const coded = /[=%]([0-9A-Fa-f]{2})/g;
    return bare.replace(/=[ \t]*\r?\n/g, "").replace(coded, oneSign).replace(coded, oneSign)
      .replace(/[ \t]*\r?\n(?:[ \t]*[>|])*[ \t]*/g, "\n");
  }

  // What in a text may be that of a link: its pieces joined to ever longer ones.
  function candidates(text) {
    const whole = plain(text.slice(0, MOST_TEXT));
    const pieces = (whole.slice(whole.lastIndexOf("#") + 1).match(/[A-Za-z0-9_-]+/g) ?? []).slice(0, MOST_PIECES);
    const alone = whole.includes("#") ? /^[1-9][0-9]{0,2}[a-z]$/ : /^$/; // where a line was broken behind it
    const start = pieces.findIndex((piece, at) => /^[1-9][0-9]{0,2}[a-z][A-Za-z0-9_-]/.test(piece) || (at === 0 && alone.test(piece)));
    return start < 0 ? [] : pieces.slice(start).map((piece, at) => pieces.slice(start, start + at + 1).join(""));
  }

  const coded = (bytes) => {
    let text = "";
    for (let at = 0; at < bytes.length; at += 4096) text += String.fromCharCode(...bytes.subarray(at, at + 4096));
    return btoa(text).replace(/\+/g, "-").replace(/\//g, "_").replace(/=+$/, "");
  };

  // Of the texts that mean the same bytes only one is ours; null for the others.
  function bared(body) {
    if (!body.endsWith(END)) return null;
    const text = body.slice(0, -1);
    try {
      const bytes = Uint8Array.from(atob(text.replace(/-/g, "+").replace(/_/g, "/")), (sign) => sign.charCodeAt(0));
      return coded(bytes) === text ? bytes : null;
    } catch {
      return null;
    }
  }

  function joined(parts, size) {
    const whole = new Uint8Array(size);
    let at = 0;
    for (const part of parts) {
      whole.set(part, at);
      at += part.length;
    }
    return whole;
  }

  // Bytes through a stream that packs or unpacks; null where they cannot, or come out too many.
  async function through(stream, bytes, before = 0) {
    const writer = stream.writable.getWriter();
    const fed = writer.write(bytes).then(() => writer.close()).then(() => true, () => false);
    const reader = stream.readable.getReader();
    const parts = [];
    let size = 0;
    try {
      for (;;) {
        const { done, value } = await reader.read();
        if (done) break;
        parts.push(value);
        size += value.length;
        if (size > MOST_BYTES + before) {
          reader.cancel().catch(() => {});
          return null;
        }
      }
    } catch {
      return null;
    }
    return (await fed) ? joined(parts, size) : null;
  }

  // Whether a quote names only what it holds, and something at all.
  function whole(quote) {
    const pairs = quote.alternatives.flat();
    return pairs.length > 0 && quote.alternatives.every((one) => one.length > 0) && pairs.every((pair) =>
      pair.frame < quote.frames.length && pair.lens < quote.lenses.length && pair.prescription < quote.prescriptions.length &&
      (pair.tint === null || pair.tint < quote.tints.length));
  }

  // From version 2 on the words that most quotes have in common stand before, as quoting/quoted/squeezing.py has them.
  const PRIMED_SINCE = 2;
  const primer = () => UTF8.encode(globalThis.bevelQuotes.primer);
  const two = (number) => [number & 255, number >> 8];
  const stored = (bytes) => [120, 1, 0, ...two(bytes.length), ...two(65535 - bytes.length), ...bytes];

  async function record(version, bytes) {
    const first = version < PRIMED_SINCE ? [] : stored(primer());
    const before = version < PRIMED_SINCE ? 0 : primer().length;
    const raw = await through(new DecompressionStream("deflate"), joined([first, bytes], first.length + bytes.length), before);
    if (raw === null) return null;
    try {
      const text = new TextDecoder("utf-8", { fatal: true, ignoreBOM: true }).decode(raw.subarray(before));
      const value = JSON.parse(text);
      if (JSON.stringify(value) !== text) return null;
      const quote = unpacked("quote", value);
      return whole(quote) ? quote : null;
    } catch {
      return null;
    }
  }

  async function openedOne(text) {
    const shape = /^([1-9][0-9]{0,2})([a-z])([A-Za-z0-9_-]*)$/.exec(text);
    if (!shape) return { text, fault: "no-quote" };
    const { version, domain } = globalThis.bevelQuotes;
    if (Number(shape[1]) > version) return { text, fault: "newer" };
    const body = bared(shape[3]);
    const signed = shape[2] === "s";
    if (body === null || !(signed || shape[2] === "u")) return { text, fault: "damaged" };
    const head = signed ? KEY_BYTES + SIGNATURE_BYTES : 0;
    const quote = await record(Number(shape[1]), body.subarray(head));
    if (quote === null) return { text, fault: "damaged" };
    if (!signed) return { text, quote, key: "" };
    const key = body.subarray(0, KEY_BYTES);
    const said = UTF8.encode(`${domain}${shape[1]}s`);
    const rest = body.subarray(head);
    const message = joined([said, key, rest], said.length + key.length + rest.length);
    const name = [...key].map((byte) => byte.toString(16).padStart(2, "0")).join("");
    return { text, quote, key: name, signature: body.subarray(KEY_BYTES, head), message };
  }

  // What a link or a pasted text holds: {quote, key, ...} or {fault}.
  async function opened(text) {
    if (text.trim().replace(/^#/, "") === "") return { text: "", fault: "nothing" };
    let first = null;
    for (const candidate of candidates(text)) {
      const found = await openedOne(candidate);
      if (found.quote || found.fault === "newer") return found;
      first ??= found;
    }
    return first ?? { text: "", fault: "no-quote" };
  }

  // Adler-32 as zlib writes it behind what it squeezed, of the primer too (RFC 1950).  Browsers squeeze without a primer.
  function checksum(bytes) {
    let [a, b] = [1, 0];
    for (const byte of bytes) {
      a = (a + byte) % 65521;
      b = (b + a) % 65521;
    }
    return [b >> 8, b & 255, a >> 8, a & 255];
  }

  // The text of a link that nobody signs; null where this browser cannot pack it.
  async function unsigned(quote) {
    if (typeof CompressionStream === "undefined") return null;
    const raw = UTF8.encode(JSON.stringify(packed("quote", quote)));
    const bytes = await through(new CompressionStream("deflate-raw"), raw);
    if (bytes === null) return null;
    const sum = checksum([...primer(), ...raw]);
    return `${globalThis.bevelQuotes.version}u${coded(joined([bytes, sum], bytes.length + sum.length))}${END}`;
  }

  // Put a text where it can be pasted from, and say so; where the browser does not let us, show it.
  async function copied(text, words, tell) {
    try {
      await navigator.clipboard.writeText(text);
      tell(words);
    } catch {
      tell(text);
    }
  }

  Object.assign(globalThis.bevelbook, { copied, openedQuote: opened, unsignedQuote: unsigned });
})();
