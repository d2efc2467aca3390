"""Tints and treatments that are added to a package, and whether one may drive behind them.

A tint that takes ``depth`` percent of the light passes the rest of what the lens passes; layers multiply.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from quoting.kernel.records import Options


def no_options() -> Options:
    """Nothing is wished beyond the package, and the glasses are for nothing special."""
    return {
        "tint_depth": 0.0,
        "tint_gradient": False,
        "mirror": False,
        "blue_filter": False,
        "slab_off": False,
        "rush": False,
        "sport": False,
        "one_eyed": False,
        "driving": False,
        "night_driving": False,
    }
