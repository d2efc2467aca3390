// What a visitor brings: read from fields, kept in the fragment from page to page, in the browser only if wished.
// SPDX-License-Identifier: AGPL-3.0-or-later
(function () {
  "use strict";

  const { shop, say } = globalThis.bevelbook;
  const KEPT = "bevelbook.prescription";

  const nothing = () => ({
    right: null,
    left: null,
    pd: { binocular: null, right: null, left: null },
    height: { right: null, left: null },
    child: false,
    region: "",
  });

  // A number as people write it: a comma, a typographic minus, a sign apart.  null where it is none.
  function number(text) {
    const plain = text.trim().replace(/[\u2212\u2012\u2013\u2014\ufe63\uff0d]/g, "-").replace(",", ".").replace(/^([+-])\s+/, "$1");
    return /^[+-]?(\d+(\.\d*)?|\.\d+)$/.test(plain) ? Number(plain) : null;
  }

  // Each field: what it takes, its least and greatest value, the step of its arrow keys.
  const FIELDS = {
    sphere: { least: -40, most: 40, step: 0.25 },
    cylinder: { least: -15, most: 15, step: 0.25 },
    axis: { least: 0, most: 180, step: 1 },
    add: { least: 0, most: 6, step: 0.25 },
    prism_in: { least: 0, most: 20, step: 0.25 },
    prism_up: { least: 0, most: 20, step: 0.25 },
    pd: { least: 15, most: 45, step: 0.5 },
    height: { least: 5, most: 50, step: 0.5 },
  };
  const PLANO = /^(pl|plano|plan|afocal|\u221e)$/i;
  const NONE = /^(ds|sph|d\.?s\.?|-+)$/i;

  // One field's text: {value} (null where it is empty) or {fault} in words.
  function field(name, text) {
    const { least, most } = FIELDS[name];
    const written = text.trim();
    if (written === "") return { value: null };
    if (name === "sphere" && PLANO.test(written)) return { value: 0 };
    if (name === "cylinder" && NONE.test(written)) return { value: 0 };
    const value = number(written.replace(name === "axis" ? /^[x\u00d7@]|\u00b0$/gi : /(D|mm)$/i, ""));
    if (written === "?") return { fault: say("unread") };
    if (value === null) return { fault: say("not-a-number", { text: written.slice(0, 12) }) };
    if (name === "axis" && value !== Math.floor(value)) return { fault: say("axis-whole") };
    if (value < least || value > most) return { fault: say(`${name}-range`, { least, most }) };
    if (["sphere", "cylinder", "add"].includes(name) && (value * 8) % 1 !== 0) return { value, note: say("off-step") };
    return { value: name === "axis" && value === 0 ? 180 : value };
  }

  // A row of fields as one eye: {eye} (null where the row is empty), what is missing by field, and a note.
  function eye(values) {
    const { sphere, cylinder, axis, add } = values;
    const faults = {};
    const prism = values.prism_in || values.prism_up;
    if (!prism && [sphere, cylinder, axis, add].every((value) => value === null)) return { eye: null, faults };
    if (sphere === null) faults.sphere = say("sphere-missing");
    if (cylinder && axis === null) faults.axis = say("axis-missing");
    const found = {
      sphere: sphere ?? 0,
      cylinder: cylinder ?? 0,
      axis: cylinder ? (axis ?? 180) : 180,
      add: add ?? 0,
      prism_in: values.prism_in ?? 0,
      prism_up: values.prism_up ?? 0,
    };
    return { eye: found, faults, note: axis !== null && cylinder === null ? say("axis-alone") : "" };
  }

  // What is possible and yet hardly ever meant: said beside the panel, and left to the visitor.
  function doubts(ask) {
    const found = [];
    const { right, left, pd } = ask;
    for (const [one, side] of [[right, "R"], [left, "L"]]) {
      if (!one) continue;
      const name = shop.words.sides[side];
      if (Math.abs(one.sphere) > 20) found.push(say("doubt-sphere", { side: name }));
      if (Math.abs(one.cylinder) > 6) found.push(say("doubt-cylinder", { side: name }));
      if (one.add && (one.add < 0.5 || one.add > 4)) found.push(say("doubt-add", { side: name }));
      if (Math.abs(one.prism_up) >= 0.5) found.push(say("doubt-vertical", { side: name }));
    }
    if (right && left) {
      if ((right.add === 0) !== (left.add === 0)) found.push(say("doubt-one-add"));
      const means = [right, left].map((one) => one.sphere + one.cylinder / 2);
      if (means[0] * means[1] < 0 && Math.min(...means.map(Math.abs)) >= 0.5) found.push(say("doubt-signs"));
      if (apart(right, left) >= 2) found.push(say("doubt-apart"));
    }
    const [least, most] = [ask.child ? 43 : 54, 74];
    const both = pd.binocular ?? (pd.right !== null && pd.left !== null ? pd.right + pd.left : null);
    if (both !== null && (both < least || both > most)) found.push(say("doubt-pd", { least, most }));
    if (pd.right !== null && pd.left !== null && Math.abs(pd.right - pd.left) > 4) found.push(say("doubt-pd-sides"));
    return found;
  }

  // The greatest difference of power between the eyes in any meridian, D.
  function apart(right, left) {
    const { vector } = globalThis.bevelKernel.power;
    const one = vector(right.sphere, right.cylinder, right.axis);
    const other = vector(left.sphere, left.cylinder, left.axis);
    const [m, j0, j45] = one.map((value, i) => value - other[i]);
    return Math.abs(m) + Math.sqrt(j0 * j0 + j45 * j45);
  }

  const written = (value) => (value === null ? "" : String(value));

  function eyeText(one) {
    const parts = [one.sphere, one.cylinder, one.axis, one.add, one.prism_in, one.prism_up].map(String);
    while (parts.length > 1 && (parts.at(-1) === "0" || (parts.length === 3 && one.cylinder === 0))) parts.pop();
    return parts.join(",");
  }

  function eyeFrom(text) {
    const parts = text.split(",").map(number);
    if (parts.length > 6 || parts.includes(null)) return null;
    const [sphere, cylinder = 0, axis = 180, add = 0, prism_in = 0, prism_up = 0] = parts;
    const found = { sphere, cylinder, axis: axis === 0 ? 180 : axis, add, prism_in, prism_up };
    const sound = Object.entries(found).every(([name, value]) => {
      const { least, most } = FIELDS[name];
      return name.startsWith("prism") ? Math.abs(value) <= most : value >= least && value <= most;
    });
    return sound && Number.isInteger(found.axis) && (!cylinder || parts.length > 2) ? found : null;
  }

  const within = (name, text) => {
    const value = text ? number(text) : null;
    return value !== null && value >= FIELDS[name].least && value <= FIELDS[name].most ? value : null;
  };

  // In a fragment: od=-6.25,-1.25,10&os=-5.75&pd=31,32 and so on; what cannot be read there is not read at all.
  function toText(ask) {
    const parts = [];
    if (ask.right) parts.push(`od=${eyeText(ask.right)}`);
    if (ask.left) parts.push(`os=${eyeText(ask.left)}`);
    if (!parts.length) return "";
    const { pd, height } = ask;
    if (pd.binocular !== null) parts.push(`pd=${pd.binocular}`);
    else if (pd.right !== null || pd.left !== null) parts.push(`pd=${written(pd.right)},${written(pd.left)}`);
    if (height.right !== null || height.left !== null) parts.push(`h=${written(height.right)},${written(height.left)}`);
    if (ask.child) parts.push("age=child");
    if (ask.region) parts.push(`to=${encodeURIComponent(ask.region)}`);
    return parts.join("&");
  }

  function fromText(text) {
    const ask = nothing();
    for (const part of text.replace(/^#/, "").split("&")) {
      const [name, value = ""] = part.split("=", 2);
      const [first = "", second = ""] = value.split(",");
      if (name === "od") ask.right = eyeFrom(value);
      if (name === "os") ask.left = eyeFrom(value);
      if (name === "pd" && value.includes(",")) [ask.pd.right, ask.pd.left] = [within("pd", first), within("pd", second)];
      if (name === "pd" && !value.includes(",")) {
        const both = number(value);
        ask.pd.binocular = both !== null && both >= 30 && both <= 90 ? both : null;
      }
      if (name === "h") [ask.height.right, ask.height.left] = [within("height", first), within("height", second)];
      if (name === "age") ask.child = value === "child";
      if (name === "to") ask.region = shop.regions.find((one) => encodeURIComponent(one.id) === value)?.id ?? "";
    }
    return ask;
  }

  const isEmpty = (ask) => ask.right === null && ask.left === null;

  // The fragment first, then what this browser was asked to keep.
  function start() {
    const there = fromText(location.hash);
    if (!isEmpty(there)) return there;
    try {
      return fromText(localStorage.getItem(KEPT) ?? "");
    } catch {
      return there;
    }
  }

  const kept = () => {
    try {
      return localStorage.getItem(KEPT) !== null;
    } catch {
      return false;
    }
  };

  function keep(ask) {
    try {
      if (ask === null || isEmpty(ask)) localStorage.removeItem(KEPT);
      else localStorage.setItem(KEPT, toText(ask));
      return true;
    } catch {
      return false;
    }
  }

  // What the fragment says, or will say when who types rests: to write it costs the browser as much as an answer.
  const REST = 200;
  let wanted = null;
  let resting = 0;
  const fragment = () => wanted ?? location.hash;

  function writeAddress() {
    clearTimeout(resting);
    const next = wanted;
    wanted = null;
    if (next !== null && next !== location.hash) history.replaceState(history.state, "", location.pathname + location.search + next);
  }

  // The part of the address that names a place in the page, and not the prescription.
  const place = () => fragment().replace(/^#/, "").split("&").filter((part) => part && !part.includes("="))[0] ?? "";

  // What the address says beside place and prescription: the tools of a list.
  const OWN = ["od", "os", "pd", "h", "age", "to"];
  const others = (address = fragment()) => address.replace(/^[^#]*#/, "").split("&")
    .filter((part) => part.includes("=") && !OWN.includes(part.split("=", 1)[0])).join("&");

  function hash(ask, anchor, rest) {
    const parts = [anchor, toText(ask), rest].filter(Boolean);
    return parts.length ? `#${parts.join("&")}` : "";
  }

  // Write the address anew without leaving the page.
  function readdress(ask, rest) {
    wanted = hash(ask, place(), rest);
    clearTimeout(resting);
    if (document.activeElement?.dataset.field) resting = setTimeout(writeAddress, REST);
    else writeAddress();
  }

  // Every link to another page of the site takes the prescription along; it stands in no request.
  function carry(ask) {
    for (const event of ["click", "visibilitychange"]) addEventListener(event, writeAddress, true);
    addEventListener("hashchange", () => (wanted = null), true);
    document.addEventListener("click", (event) => {
      const link = event.target.closest?.("a[href]");
      if (!link || link.origin !== location.origin || link.protocol !== location.protocol) return;
      if (!/(\.html|\/)$/.test(link.pathname)) return;
      // Within the page the browser goes to the place that is named, and then the address says the rest again.
      if (link.getAttribute("href").startsWith("#")) {
        const rest = others();
        setTimeout(() => event.defaultPrevented || readdress(ask(), rest));
        return;
      }
      const parts = link.hash.replace(/^#/, "").split("&").filter(Boolean);
      const own = link.hreflang ? others() : others(link.hash); // the same page in another language
      link.hash = hash(ask(), parts.find((part) => !part.includes("=")) ?? "", own);
    }, true);
  }

  Object.assign(globalThis.bevelbook, {
    nothing, number, field, eye, doubts, apart, toText, fromText, isEmpty, start, kept, keep, place, others, readdress, writeAddress, carry, FIELDS,
  });
})();
