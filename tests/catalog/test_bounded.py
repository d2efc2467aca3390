"""Files made to exhaust the machine are answered within bounds of memory, in a process that has no more."""

import gc
import subprocess
import sys

import pytest

from quoting.catalog.load import load
from quoting.nodes import MOST_BYTES
from tests.catalog.test_mangled import bomb
from tests.errors.gallery import WHOLE

MEGABYTES = 1500  # of address space, what Python and its libraries take included
LOADED = """
import resource, sys
from pathlib import Path
most = int(sys.argv[2]) * 1_000_000
resource.setrlimit(resource.RLIMIT_AS, (most, most))
from quoting.catalog.load import load
catalog, findings = load(Path(sys.argv[1]))
print(catalog is None, sorted({finding.code for finding in findings}), all(f.mark.line >= 1 for f in findings))
"""


@pytest.mark.parametrize(
    ("text", "code"),
    [
        pytest.param("maker: " + "x" * 10_000_000, "file-too-large", id="ten-megabytes-in-a-line"),
        pytest.param("maker: " + "x" * (MOST_BYTES - 100), "too-long", id="the-longest-line-that-is-read"),
        pytest.param(bomb(), "anchor", id="aliases"),
        pytest.param("a: [" + "[]," * 1_500_000 + "]", "file-too-large", id="more-values-than-are-read"),
        pytest.param("[" * (MOST_BYTES - 1), "too-deep", id="brackets"),
    ],
)
def test_memory_is_bounded(shop_with, text, code):
    pytest.importorskip("resource", reason="this system sets no bound for a process")
    command = [sys.executable, "-c", LOADED, str(shop_with(text)), str(MEGABYTES)]
    ended = subprocess.run(command, capture_output=True, text=True, check=False, timeout=600)
    assert ended.stderr == ""
    assert ended.stdout.startswith("True [")
    assert f"'{code}'" in ended.stdout
    assert ended.stdout.endswith("True\n")


@pytest.fixture
def shop_with(tmp_path):
    """The whole shop with another file of frames."""

    def made(text):
        for path in WHOLE.rglob("*.yaml"):
            copy = tmp_path / path.relative_to(WHOLE)
            copy.parent.mkdir(exist_ok=True)
            copy.write_bytes(path.read_bytes())
        (tmp_path / "frames" / "other.yaml").write_text(text, encoding="utf-8")
        return tmp_path

    return made


@pytest.mark.parametrize("running", [True, False])
def test_the_collector_is_afterwards_as_it_was(running):
    before = gc.isenabled()
    try:
        (gc.enable if running else gc.disable)()
        load(WHOLE)
        assert gc.isenabled() is running
    finally:
        (gc.enable if before else gc.disable)()
