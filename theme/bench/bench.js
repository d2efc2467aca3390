// The bench page: what is typed goes to the kernel, and what it says is shown, as `bevelbook calc` does.
"use strict";
(() => {
  const kernel = globalThis.bevelKernel;
  const { kinds, calculators } = globalThis.bevelBench;
  const draw = globalThis.bevelDraw;
  const NUMBER = /^[+\-−]?[0-9]{1,5}(?:[.,][0-9]{1,4})?$/;
  const { rounded } = kernel.calculators;

  function shown(kind, value, unit) {
    const [places, signed, name] = kinds[kind];
    const near = rounded(value, places);
    let text = Math.abs(near).toFixed(places);
    if (kind === "axis") text = text.padStart(3, "0");
    const sign = near < 0 ? "−" : signed && near > 0 ? "+" : "";
    const gap = ["°", "Δ", ""].includes(name) ? "" : " ";
    return sign + text + (unit && name ? gap + name : "");
  }

  function read(field, text) {
    const written = text.trim();
    if (field.words.length) return written;
    if (!NUMBER.test(written)) {
      throw new Error(field.label + ": '" + text + "' is not a number such as " + shown(field.kind, field.default, false));
    }
    let value = Number(written.replace("−", "-").replace(",", "."));
    if (field.kind === "axis") {
      value = value || field.high; // an axis of 0 is the meridian of 180
      if (!Number.isInteger(value)) throw new Error(field.label + ": " + value + " is not a whole number of degrees");
    }
    if (value < field.low || value > field.high) {
      throw new Error(field.label + ": " + value + " is not between " + field.low + " and " + field.high);
    }
    return value;
  }

  function told(one, numbers) {
    return one.results.map((result, i) =>
      result.none && numbers[i] >= result.from ? result.none : shown(result.kind, numbers[i], true));
  }

  function work(one) {
    const section = document.getElementById(one.name);
    const form = section.querySelector("form");
    const fault = section.querySelector(".fault");
    const table = section.querySelector("table");
    const cells = [...section.querySelectorAll("td")];
    const picture = section.querySelector("svg");
    function fill() {
      const said = [];
      const values = one.fields.map((field) => {
        const input = form.elements[field.id];
        try {
          const value = read(field, input.value);
          input.removeAttribute("aria-invalid");
          return value;
        } catch (error) {
          input.setAttribute("aria-invalid", "true");
          said.push(error.message);
          return null;
        }
      });
      let numbers = null;
      if (!said.length) {
        try {
          numbers = kernel[one.module][one.call](...values);
        } catch (error) {
          if (error.name !== "ValueError") throw error;
          said.push(error.message);
        }
      }
      const text = said.join("; ");
      if (fault.textContent !== text) fault.textContent = text;
      fault.hidden = !said.length;
      table.classList.toggle("stale", !numbers);
      if (numbers) told(one, numbers).forEach((word, i) => (cells[i].textContent = word));
      picture.innerHTML = numbers ? draw[one.name](values, numbers, (kind, value) => shown(kind, value, true)) : "";
    }
    form.addEventListener("input", fill);
    form.addEventListener("submit", (event) => event.preventDefault());
    form.addEventListener("keydown", (event) => {
      const up = { ArrowUp: 1, ArrowDown: -1 }[event.key];
      const field = one.fields.find((each) => each.id === event.target.name);
      if (!up || !field || field.words.length || !NUMBER.test(event.target.value.trim())) return;
      const step = field.kind === "power" ? 0.25 : field.kind === "index" ? 0.01 : field.kind === "number" ? 0.1 : 1;
      const now = Number(event.target.value.trim().replace("−", "-").replace(",", ".")) + up * step;
      const turned = field.kind === "axis" ? ((((now - 1) % 180) + 180) % 180) + 1 : now; // beyond 180 comes 1
      event.target.value = shown(field.kind, Math.min(field.high, Math.max(field.low, turned)), false);
      event.preventDefault();
      fill();
    });
    fill();
  }
  calculators.forEach(work);
})();
