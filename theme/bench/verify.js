// The form of a verification: what is typed is held against the order by the same kernel as `bevelbook verify`.
"use strict";
(() => {
  const kernel = globalThis.bevelKernel;
  const order = globalThis.bevelOrder;
  const NUMBER = /^[+\-−]?[0-9]{1,3}(?:[.,][0-9]{1,3})?$/;
  const form = document.getElementById("form");
  const byId = (id) => document.getElementById(id);
  const { rounded } = kernel.calculators;
  const { NOT_READ } = order;

  function shown(kind, value) {
    const [places, signed, name] = order.kinds[kind];
    const near = rounded(value, places);
    let text = Math.abs(near).toFixed(places);
    if (kind === "axis") text = text.padStart(3, "0");
    const sign = near < 0 ? "−" : signed && near > 0 ? "+" : "";
    const gap = ["°", "Δ", ""].includes(name) ? "" : " ";
    return sign + text + (name ? gap + name : "");
  }

  function read(input, faults) {
    const text = input.value.trim();
    input.removeAttribute("aria-invalid");
    if (!text) return null;
    const [low, high] = order.limits[input.name.split("-").pop()] || [-100, 100];
    const value = Number(text.replace("−", "-").replace(",", "."));
    if (/^(pl|ds)$/i.test(text)) return 0;
    if (!NUMBER.test(text) || value < low || value > high) {
      input.setAttribute("aria-invalid", "true");
      faults.push("“" + text + "” is not a number from " + low + " to " + high);
      return null;
    }
    return value;
  }

  function readings() {
    const faults = [];
    const found = {};
    for (const name of Object.keys(order.ordered)) {
      found[name] = {};
      for (const field of order.fields) {
        const input = form.elements[name + "-" + field];
        const value = input ? read(input, faults) : null;
        found[name][field] = value;
      }
      if (found[name].sphere !== null && found[name].cylinder === null) found[name].cylinder = 0;
      const { sphere, cylinder, axis } = found[name];
      if (cylinder && (sphere === null || axis === null)) {
        faults.push(name + ": a cylinder needs its sphere and its axis");
        found[name].sphere = null;
      }
      if (sphere !== null && axis === null) found[name].axis = 180;
    }
    const tint = form.elements.tint ? read(form.elements.tint, faults) : null;
    return { found, tint, faults };
  }

  const filled = (values) =>
    Object.fromEntries(order.fields.map((field) => [field, values[field] === null ? NOT_READ : values[field]]));

  function checks({ found, tint }) {
    const standard = form.elements.standard.value;
    const names = Object.keys(order.ordered);
    const { verified, verified_pair } = kernel;
    let all = [];
    for (const name of names) {
      all = all.concat(verified.lens_checks(standard, order.kind, name, order.ordered[name], filled(found[name])));
    }
    if (names.length === 2) {
      const both = [filled(found.R), filled(found.L)];
      all = all.concat(verified_pair.pair_checks(standard, order.kind, order.ordered.R, order.ordered.L, both));
    } else {
      for (const name of names) {
        all = all.concat(verified_pair.alone_checks(standard, order.kind, name, order.ordered[name], filled(found[name])));
      }
    }
    if (tint !== null) all = all.concat(verified_pair.tint_check(order.through, tint));
    return all;
  }

  const WORDS = { pass: "Pass: every value that was read is within its tolerance.", fail: "Fail", nothing: "Nothing was read yet.",
    part: "Not yet: what was read is within its tolerance. Still to be read: " };

  // What has to be read before the pair can pass, by the labels of the form
  function lacking(found) {
    return Object.keys(order.ordered).flatMap((name) => kernel.verified.lacking(order.kind, order.ordered[name], filled(found[name]))
      .map((field) => name + " " + order.labels[field]));
  }

  function row(check, standard) {
    const [name, kind, ansi, iso] = order.held[check.code];
    const unit = order.asPrism.includes(check.code) ? "prism" : order.tolerances[kind] || kind;
    const cells = [shown(kind, check.ordered), shown(kind, check.found), "± " + shown(unit, check.tolerance),
      standard === "ansi" ? ansi : iso, check.verdict];
    const line = document.createElement("tr");
    const head = document.createElement("th");
    head.scope = "row";
    head.textContent = check.eye === "B" ? name : check.eye + " " + name;
    line.append(head);
    for (const text of cells) {
      const cell = document.createElement("td");
      cell.textContent = text;
      line.append(cell);
    }
    line.lastChild.className = check.verdict;
    return line;
  }

  function fill() {
    const standard = form.elements.standard.value;
    const taken = readings();
    const all = checks(taken);
    byId("checks").replaceChildren(...all.map((check) => row(check, standard)));
    const lacks = lacking(taken.found);
    let result = kernel.verified_pair.overall(all);
    if (result === "pass" && lacks.length) result = "part";
    const failed = all.filter((check) => check.verdict === "fail").length;
    const said = result === "fail" ? WORDS.fail + ": " + failed + " of " + all.length + " values"
      : WORDS[result] + (result === "part" ? lacks.join(", ") + "." : "");
    if (byId("verdict").textContent !== said) byId("verdict").textContent = said;
    byId("verdict").className = result;
    byId("fault").hidden = !taken.faults.length;
    byId("fault").textContent = taken.faults.join("; ");
    return taken;
  }

  function save() {
    const { found, tint, faults } = fill();
    if (faults.length) return;
    const said = { order: order.id, standard: form.elements.standard.value, by: form.elements.by.value.trim(), found, transmittance: tint };
    const link = document.createElement("a");
    link.href = URL.createObjectURL(new Blob([JSON.stringify(said, null, 1) + "\n"], { type: "application/json" }));
    link.download = "verify-" + order.id + ".json";
    link.click();
    setTimeout(() => URL.revokeObjectURL(link.href), 1000);
  }

  form.addEventListener("input", fill);
  form.addEventListener("submit", (event) => event.preventDefault());
  byId("save").addEventListener("click", save);
  fill();
})();
