"""Both sides of the comparison: what a call gives in CPython, and the script that gives the same in JavaScript."""

import copy

from quoting.site import to_js
from quoting.site.assets import squeezed
from quoting.site.to_js_bundle import bundle
from tests.kernel.parity.calls import modules
from tests.kernel.parity.spelling import SPELL

# What a call gives: its value, and, of direct calls, its arguments afterwards; or the name of the error
OUTCOME = (
    SPELL
    + r"""
const outcome = ([module, name, given]) => {
  try {
    const value = bevelKernel[module][name](...given);
    return module === "quote" && name === "answer" ? { value } : { value, given };
  } catch (error) {
    return { error: error.name, message: error.message };
  }
};
const outcomes = (text) => {
  const calls = JSON.parse(text, text.includes('"$"') ? unspelled : null);
  return JSON.stringify(calls.map(outcome), spelled);
};
"""
)

# Reads the folder's chunks one after the other and writes what they give beside them
NODE = (
    r"""
const fs = require("node:fs"), path = require("node:path");
const [script, folder, side, ...chunks] = process.argv.slice(2);
require("node:vm").runInThisContext(fs.readFileSync(script, "utf8"), { filename: script });
const { bevelKernel } = globalThis;
"""
    + OUTCOME
    + r"""
for (const n of chunks) {
  const text = fs.readFileSync(path.join(folder, n + ".calls.json"), "utf8");
  fs.writeFileSync(path.join(folder, n + "." + side + ".json"), outcomes(text));
}
"""
)

# What the page loads after the kernel
PAGE = (
    OUTCOME
    + r"""
globalThis.answered = async (address) => outcomes(await (await fetch(address)).text());
"""
)


def script():
    """The kernel as the page has it, freshly translated."""
    return squeezed(bundle(to_js.emit(to_js.kernel_paths(), short=True)))


def in_python(call, kernel=None):
    """What a call gives here."""
    module, name, given = call
    given = copy.deepcopy(given) if name != "answer" else given
    try:
        value = getattr((kernel or modules())[module], name)(*given)
    except Exception as fault:  # whatever it is, both languages must agree on it
        return {"error": type(fault).__name__, "message": str(fault)}
    return {"value": value} if name == "answer" and module == "quote" else {"value": value, "given": given}
