"""Chromium for tests: windows that wait long before they give up, and pages that are slowed down where that is asked.

A limit says that something will never come.  Where it comes, a long limit costs nothing; a short one fails on a busy
machine.  With `BEVELBOOK_SLOWER=6` the scripts of every page take six times as long (CDP,
Emulation.setCPUThrottlingRate), and what they leave for the next frame, for a pause, for a later script or for the
browser's cryptography comes 150 ms later still.  The tests are as fast as ever: what one of them reads too early then
fails at once, and not once in a hundred runs.
"""

import os

from playwright.sync_api import expect

SOON = 60_000  # ms
SLOWER = float(os.environ.get("BEVELBOOK_SLOWER") or 1)
LATE_MS = 25 * SLOWER
LATE = """{
  const later = globalThis.setTimeout.bind(globalThis);
  globalThis.setTimeout = (work, delay = 0, ...given) => later(work, delay + LATE_MS, ...given);
  for (const name of ["requestAnimationFrame", "requestIdleCallback"]) {
    const plain = globalThis[name].bind(globalThis);
    globalThis[name] = (...given) => later(() => plain(...given), LATE_MS);
  }
  const append = Element.prototype.append;
  Element.prototype.append = function (...nodes) {
    if (this === globalThis.document?.head) later(() => append.apply(this, nodes), LATE_MS);
    else append.apply(this, nodes);
  };
  if (globalThis.crypto?.subtle) {
    for (const name of ["importKey", "verify", "digest"]) {
      const plain = crypto.subtle[name].bind(crypto.subtle);
      crypto.subtle[name] = async (...given) => {
        await new Promise((done) => later(done, LATE_MS));
        return plain(...given);
      };
    }
  }
}"""


def launched(kind, program, switches):
    """A browser of that kind, with the patience of all tests in each of its windows."""
    browser = kind.launch(executable_path=program, args=switches, timeout=SOON)
    plain = browser.new_context

    def new_context(**settings):
        context = plain(**settings)
        context.set_default_timeout(SOON)
        if SLOWER > 1:
            context.add_init_script(LATE.replace("LATE_MS", str(LATE_MS)))
            context.new_page = slowed(context, context.new_page)
        return context

    browser.new_context = new_context
    expect.set_options(timeout=SOON)
    return browser


def slowed(context, new_page):
    """Opens pages whose scripts take so many times as long, whatever they go to."""

    def opened():
        page = new_page()
        context.new_cdp_session(page).send("Emulation.setCPUThrottlingRate", {"rate": SLOWER})
        return page

    return opened
