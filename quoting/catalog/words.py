"""What the fields of a shop folder are called in the trade, for messages (ISO 8624 and ISO 13666 terms)."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

FRAME_WORDS = {
    "a": "lens width",
    "b": "lens height",
    "dbl": "distance between lenses",
    "ed": "effective diameter",
    "temple": "temple length",
    "curve": "front curve",
    "wrap": "face-form angle",
    "tilt": "pantoscopic tilt",
    "family": "shape family",
    "front": "color of the front",
    "temples": "color of the temples",
}
LENS_WORDS = {
    "abbe": "Abbe number",
    "min_center": "minimum center thickness",
    "min_height": "minimum fitting height",
    "min_above": "minimum height above the cross",
    "boost": "fixed near plus",
    "near_below": "depth of the near reference point",
    "segment_width": "segment width",
    "segment_depth": "segment depth",
    "conic": "conic constant",
    "diameter": "blank diameter",
    "center": "center thickness",
    "base": "base curve",
    "lens": "price per lens",
    "prism": "largest prescribed prism",
}
TINT_WORDS = {
    "parts": "parts of each dye",
    "absorbs": "light taken in percent",
    "code": "order code",
    "at_5": "darkened state at 5 °C",
    "at_23": "darkened state at 23 °C",
    "at_35": "darkened state at 35 °C",
}
SHOP_WORDS = {
    "min_edge": "thinnest edge",
    "pd": "pupillary distance",
    "child_pd": "child's pupillary distance",
    "vertex": "vertex distance",
    "wrap_angle": "least face-form angle of a wrap",
    "wrap_curve": "least front curve of a wrap",
}
PRICE_WORDS = {"free_from": "amount that ships free"}
