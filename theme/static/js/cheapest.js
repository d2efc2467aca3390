// The color by which a frame is priced where nobody has chosen one.
// SPDX-License-Identifier: AGPL-3.0-or-later
(function () {
  "use strict";

  // The cheapest color that is not sold out, or of all where each one is.
  function cheapest({ colors }) {
    const had = colors.filter(({ stock }) => stock !== "sold-out");
    return (had.length ? had : colors).reduce((least, one) => (one.cents < least.cents ? one : least));
  }

  Object.assign(globalThis.bevelbook, { cheapest });
})();
