"""Runs emitted scripts in node, as a page would: one after the other, in one global scope."""

import json
import os
import shutil
import subprocess

import pytest

DRIVER = r"""
const vm = require("node:vm");
const { scripts, calls } = JSON.parse(require("node:fs").readFileSync(0, "utf8"));
for (const [filename, text] of Object.entries(scripts)) vm.runInThisContext(text, { filename });
const results = calls.map((call) => {
  try {
    const value = vm.runInThisContext("((K) => (" + call + "))")(globalThis.bevelKernel);
    return { value: value === undefined ? null : value };
  } catch (error) {
    return { error: error.name, message: error.message, where: globalThis.bevelKernel?.runtime?.where(error) ?? "" };
  }
});
process.stdout.write(JSON.stringify(results));
"""


def node():
    """Where node is. Without it a test is skipped, and where a whole run is demanded it fails."""
    found = shutil.which("node")
    if found is None:
        why = "node is not installed: the kernel's JavaScript was not run"
        if os.environ.get("BEVELBOOK_REQUIRE_BROWSER") == "1":
            pytest.fail(why)
        pytest.skip(why)
    return found


def run(scripts, calls):
    """The value or the error of each call, such as `K.price.share(12990, 810)`."""
    given = json.dumps({"scripts": scripts, "calls": calls})
    done = subprocess.run([node(), "-e", DRIVER], input=given, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr
    return json.loads(done.stdout)
