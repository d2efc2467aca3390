// In which version a color is sold, optical or sun, said as quoting/show/versions.py says it.
// SPDX-License-Identifier: AGPL-3.0-or-later
(function () {
  "use strict";

  const { shop, make, fill, money, offer } = globalThis.bevelbook;
  const words = shop.words.versions;
  // What nobody can have is not what stands there first.
  const firstColor = ({ colors }) => colors.find(({ stock }) => stock !== "sold-out") ?? colors[0];
  const isSun = (color) => color.version !== "optical";

  const colorText = (color) => (isSun(color) ? fill(words["name-sun"], { color: color.name }) : color.name);

  function otherOf(frame, color) {
    return frame.colors.find((one) => one.id === color.other) ?? null;
  }

  // What the color costs in the version that was not chosen, alone or in all; and that it is not at hand.
  function otherText(other, total) {
    const key = total ? "in-all" : isSun(other) ? "other-sun" : "other-optical";
    const said = fill(words[key], { color: other.name, price: money(other.cents), total });
    return [said, words[other.stock]].filter(Boolean).map((sentence) => `${sentence}.`).join(" ");
  }

  const goneText = (color) => (color.stock === "sold-out" ? `${fill(words.gone, { color: color.name })}. ` : "");

  // Beside the choice of colors: nothing of an optical one without another version, which is the usual thing.
  function versionParts(frame, color, show) {
    const parts = [goneText(color) + (isSun(color) ? `${fill(words[`is-${color.version}`], { color: color.name })}. ` : "")];
    const other = otherOf(frame, color);
    if (other) {
      const button = make("button", { type: "button" }, words.show);
      button.addEventListener("click", () => show(other));
      parts.push(`${otherText(other, "")} `, button);
    }
    return parts.filter(Boolean);
  }

  // In the quote: that the color is not to be had, and what the same lenses come to in the optical version.
  function versionSum(found) {
    const other = isSun(found.color) ? otherOf(found.frame, found.color) : null;
    let said = goneText(found.color);
    if (other) {
      const { bill } = offer(found.frame, found.size, other, found.pack, found.ask);
      said += otherText(other, bill.priced ? money(bill.total_cents) : "");
    }
    return said && make("p", { class: "small" }, said);
  }

  Object.assign(globalThis.bevelbook, { firstColor, colorText, versionParts, versionSum });
})();
