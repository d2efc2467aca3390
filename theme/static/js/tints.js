// The page of tints: what mixing needs comes once the place for it is near, or at once for who comes with a mix.
// SPDX-License-Identifier: AGPL-3.0-or-later
(function () {
  "use strict";

  const { later, make, say } = globalThis.bevelbook;
  const home = document.getElementById("mixing");

  function begin() {
    Promise.all([later("../../data/light.js"), later("../css/tints.css")])
      .then(() => later("tinge.js"))
      .then(() => later("mixing.js"))
      .catch(() => home.append(make("p", { class: "small" }, say("script-fault"))));
  }

  const near = new IntersectionObserver((seen) => {
    if (seen.some((one) => one.isIntersecting)) begin();
  }, { rootMargin: "100%" });
  near.observe(home);
  if (/[#&]tint=/.test(location.hash)) begin();
  globalThis.addEventListener("hashchange", begin);
})();
