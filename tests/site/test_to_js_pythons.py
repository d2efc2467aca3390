"""Every Python from 3.11 on that this machine has writes the same kernel, byte for byte."""

import json
import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from quoting.site import to_js
from quoting.site.to_js_bundle import bundle

ROOT = Path(__file__).parents[2]
OLDEST = (3, 11)
ASK = "import json, sys; print(json.dumps([sys.implementation.name, list(sys.version_info[:3])]))"


def candidates():
    """Where Pythons lie: on the path, and where pyenv and uv keep theirs."""
    homes = (
        Path(os.environ.get("PYENV_ROOT", Path.home() / ".pyenv")) / "versions",
        Path(os.environ.get("UV_PYTHON_INSTALL_DIR", Path.home() / ".local" / "share" / "uv" / "python")),
    )
    named = [shutil.which(f"python3.{minor}") for minor in range(OLDEST[1], 40)]
    kept = [path for home in homes for path in sorted(home.glob("*/bin/python3"))]
    return [Path(sys.executable), *(Path(path) for path in named if path), *kept]


def asked(python):
    """What a Python is, or nothing where it does not run."""
    done = subprocess.run([python, "-S", "-c", ASK], capture_output=True, text=True, check=False)
    return json.loads(done.stdout) if done.returncode == 0 else None


def pythons():
    """Version -> where it is; one of each version."""
    found = {}
    for python in candidates():
        answer = asked(python)
        if answer and tuple(answer[1]) >= OLDEST:
            found.setdefault(f"{answer[0]} {'.'.join(map(str, answer[1]))}", python)
    return found


FOUND = pythons()


@pytest.mark.parametrize("version", FOUND)
def test_the_same_bytes_come_from(version, tmp_path):
    """With the standard library alone: no package of the environment is in reach."""
    target = tmp_path / "kernel.js"
    done = subprocess.run(
        [FOUND[version], "-S", "-m", "quoting.site.to_js", target],
        cwd=ROOT,
        env={"PYTHONPATH": str(ROOT), "PYTHONDONTWRITEBYTECODE": "1", "PYTHONHASHSEED": "7"},
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 0, done.stderr
    assert target.read_bytes() == bundle(to_js.emit(to_js.kernel_paths())).encode()


def test_more_than_one_python_was_asked():
    """Told at the end of a run, since one alone proves little."""
    if len({version.rsplit(".", 1)[0] for version in FOUND}) < 2:
        pytest.skip(f"only {', '.join(FOUND)} found: no other Python's translation was compared")
