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

  // What a field is called, with its eye
  function called(input) {
    const [field, name, ground] = input.name.split("-").reverse();
    const words = [name, ground ? "ground" : "", order.labels[field]];
    return words.filter(Boolean).join(" ");
  }

  // Says what is wrong beside its field, and gives the sentence that names the field
  function wrong(input, said, faults) {
    input.setAttribute("aria-invalid", "true");
    byId(input.id + "-fault").textContent = said;
    faults.push(called(input) + ": " + said);
    return null;
  }

  function read(input, faults) {
    const text = input.value.trim();
    input.removeAttribute("aria-invalid");
    byId(input.id + "-fault").textContent = "";
    if (!text) return null;
    const field = input.name.split("-").pop();
    const [low, high] = order.limits[field];
    if (/^(pl|ds)$/i.test(text) && ["sphere", "cylinder"].includes(field)) return 0;
    const value = Number(text.replace("−", "-").replace(",", "."));
    if (!NUMBER.test(text) || value < low || value > high) {
      return wrong(input, "“" + text + "” is not a number from " + low + " to " + high, faults);
    }
    if (field !== "axis") return value;
    return Number.isInteger(value) ? value || 180 : wrong(input, "“" + text + "” is not a whole number of degrees", faults);
  }

  // The values of one eye whose fields begin with these words
  function valuesOf(begin, faults) {
    const found = {};
    for (const field of order.fields) {
      const input = form.elements[begin + field];
      found[field] = input ? read(input, faults) : null;
    }
    if (found.sphere !== null && found.cylinder === null) found.cylinder = 0;
    const { sphere, cylinder, axis } = found;
    if (cylinder && (sphere === null || axis === null)) {
      wrong(form.elements[begin + "cylinder"], "a cylinder needs its sphere and its axis", faults);
      found.sphere = null;
    }
    if (sphere !== null && axis === null) found.axis = 180;
    return found;
  }

  const anything = (values) => Object.values(values).some((value) => value !== null);

  function readings() {
    const faults = [];
    const found = {};
    const compensated = {};
    for (const name of Object.keys(order.ordered)) {
      found[name] = valuesOf(name + "-", faults);
      const ground = valuesOf("ground-" + name + "-", faults);
      if (anything(ground)) compensated[name] = ground;
    }
    const tint = form.elements.tint ? read(form.elements.tint, faults) : null;
    return { found, compensated, tint, faults };
  }

  const filled = (values) =>
    Object.fromEntries(order.fields.map((field) => [field, values[field] === null ? NOT_READ : values[field]]));

  // What a pair is held against: what was ordered, or what the lab says it ground instead
  function wanted(compensated) {
    return Object.fromEntries(Object.entries(order.ordered).map(([name, ordered]) => {
      const ground = Object.entries(compensated[name] || {}).filter(([, value]) => value !== null);
      return [name, { ...ordered, ...Object.fromEntries(ground) }];
    }));
  }

  function checks({ found, compensated, tint }) {
    const ordered = wanted(compensated);
    const standard = form.elements.standard.value;
    const names = Object.keys(order.ordered);
    const { verified, verified_pair } = kernel;
    let all = [];
    for (const name of names) {
      all = all.concat(verified.lens_checks(standard, order.kind, name, ordered[name], filled(found[name])));
    }
    if (names.length === 2) {
      const both = [filled(found.R), filled(found.L)];
      all = all.concat(verified_pair.pair_checks(standard, order.kind, ordered.R, ordered.L, both));
    } else {
      for (const name of names) {
        all = all.concat(verified_pair.alone_checks(standard, order.kind, name, ordered[name], filled(found[name])));
      }
    }
    if (tint !== null) all = all.concat(verified_pair.tint_check(order.through, tint));
    return all;
  }

  const WORDS = { pass: "Pass: every value that was read is within its tolerance.", fail: "Fail", nothing: "Nothing was read yet.",
    part: "Not yet: what was read is within its tolerance. Still to be read: " };

  // What has to be read before the pair can pass, by the labels of the form
  function lacking({ found, compensated }) {
    const ordered = wanted(compensated);
    return Object.keys(ordered).flatMap((name) => kernel.verified.lacking(order.kind, ordered[name], filled(found[name]))
      .map((field) => name + " " + order.labels[field]));
  }

  function row(check, standard) {
    const [name, kind, ansi, iso] = order.held[check.code];
    const unit = order.asPrism.includes(check.code) ? "prism" : order.tolerances[kind] || kind;
    const cells = [check.verdict, shown(kind, check.ordered), shown(kind, check.found), "± " + shown(unit, check.tolerance),
      standard === "ansi" ? ansi : iso];
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
    line.children[1].className = check.verdict;
    return line;
  }

  function fill() {
    const standard = form.elements.standard.value;
    const taken = readings();
    const all = checks(taken);
    byId("checks").replaceChildren(...all.map((check) => row(check, standard)));
    const lacks = lacking(taken);
    let result = kernel.verified_pair.overall(all);
    if (result === "pass" && lacks.length) result = "part";
    const failed = all.filter((check) => check.verdict === "fail").length;
    const said = result === "fail" ? WORDS.fail + ": " + failed + " of " + all.length + " values"
      : WORDS[result] + (result === "part" ? lacks.join(", ") + "." : "");
    if (byId("verdict").textContent !== said) byId("verdict").textContent = said;
    byId("verdict").className = result;
    byId("fault").hidden = !taken.faults.length;
    const text = taken.faults.join("; ");
    if (byId("fault").textContent !== text) byId("fault").textContent = text;
    return taken;
  }

  function save() {
    const { found, compensated, tint, faults } = fill();
    const empty = tint === null && !Object.values(found).some(anything);
    if (faults.length || empty) {
      byId("fault").hidden = false;
      byId("fault").textContent = "Not saved. " + (faults.join("; ") || "Nothing was read yet.");
      const first = form.querySelector("[aria-invalid=true]");
      if (first && first.closest("details")) first.closest("details").open = true;
      (first || form.querySelector("fieldset input")).focus();
      return;
    }
    const said = { order: order.id, standard: form.elements.standard.value, by: form.elements.by.value.trim(), found, compensated,
      transmittance: tint };
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
