"""Every file of the kernel keeps to the subset that also runs in the page."""

import pytest

from quoting.site import to_js
from quoting.site.subset import refusals
from quoting.site.subset_facts import lines_of

PATHS = to_js.kernel_paths()


def test_the_kernel_is_found():
    assert PATHS


@pytest.mark.parametrize("path", PATHS, ids=lambda path: path.stem)
def test_every_file_keeps_to_the_subset(path):
    found = refusals(path.read_text(encoding="utf-8"), path.name)
    assert not found, "\n".join(str(finding) for finding in found)


def test_the_kernel_is_translated_line_by_line():
    emitted = to_js.emit(PATHS)
    assert set(emitted) == {"runtime.js"} | {f"{path.stem}.js" for path in PATHS}
    for path in PATHS:
        assert emitted[f"{path.stem}.js"].count("\n") == len(lines_of(path.read_text(encoding="utf-8")))
