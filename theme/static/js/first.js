// Before anything is shown: whether scripts run here, and whether somebody asks, so that room is kept for the answers.
// SPDX-License-Identifier: AGPL-3.0-or-later
(function () {
  "use strict";

  const page = document.documentElement.classList;
  page.add("scripted");
  try {
    if (/(^#|&)o[ds]=/.test(location.hash) || localStorage.getItem("bevelbook.prescription")) page.add("asked");
  } catch {
    // This browser lets pages keep nothing, so nothing was kept.
  }
})();
