"""The range that fits, on one line."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from collections.abc import Iterable

from quoting.kernel.records import Span
from quoting.show.amounts import power


def span_text(span: Span) -> str:
    """One range of spheres.

    >>> span_text({"verdict": "fits", "low": -6.0, "high": 2.0})
    '−6.00 to +2.00'
    """
    if span["low"] == span["high"]:
        return power(span["low"])
    return f"{power(span['low'])} to {power(span['high'])}"


def range_text(spans: Iterable[Span]) -> str:
    """All ranges of a package, those with a caution only where they are other ones.

    >>> range_text([{"verdict": "fits", "low": -6.0, "high": 2.0}, {"verdict": "caution", "low": -8.0, "high": 2.0}])
    'sphere −6.00 to +2.00; with a caution −8.00 to +2.00'
    >>> range_text([])
    'no sphere of this package fits this frame'
    """
    found: dict[str, list[str]] = {"fits": [], "caution": []}
    for span in spans:
        found[span["verdict"]].append(span_text(span))
    if not found["caution"]:
        return "no sphere of this package fits this frame"
    careful = f"with a caution {' and '.join(found['caution'])}"
    if not found["fits"]:
        return f"sphere {careful}"
    plain = f"sphere {' and '.join(found['fits'])}"
    return plain if found["fits"] == found["caution"] else f"{plain}; {careful}"
