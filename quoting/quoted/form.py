"""What a quote in a link holds, field by field: the form that is written and read here and in the page.

Each record is a list of values in the order of its fields; fields at the end that have their default are left out.
Money is in cents; powers and prisms are in thousandths of a diopter, since powers go in eighths; lengths, angles,
weights and percentages are in hundredths.  A day is a number such as 20261125.  Nothing is a fraction, so that every
reader has the same value.

A kind is a word with its limits behind colons:

====================  ===========================================================================================
``text:80``           words on one line, at most so many characters; no control characters, none that turn writing
``word:60``           a code or id: letters, digits, blanks and hyphens
``whole:0:100``       a whole number within limits
``day``               a day from 2000 on
``color``             six hexadecimal digits
``flag``              0 or 1
``one:a|b``           one of these words
``list:4:pair``       at most so many of a kind
``?day``              a day, or null
``pair``              a record of that name
====================  ===========================================================================================

A form that is public stays as it is: a quote must open years later.  What comes new becomes the next version: fields
with a default at the end of a record, so that it opens what was made before; `tests/quoted/kept` then gets links of it.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from typing import Any

Field = tuple[str, str] | tuple[str, str, Any]  # name, kind, and the default of one that may be left out
Form = dict[str, tuple[Field, ...]]

VERSION = 2

# The limits of texts are those of the shop's files (quoting/catalog); of numbers, those of what is worn or sold
CENTS = "whole:-100000000:100000000"
LENGTH = "whole:0:20000"
POWER = "whole:-40000:40000"
PRISM = "whole:-20000:20000"
# Characters of what an owner writes to a customer
LONG_NOTE, LONG_REASON = 400, 120

FRAME: tuple[Field, ...] = (
    ("id", "word:60"),
    ("maker", "text:80"),
    ("name", "text:80"),
    ("family", "word:20"),
    ("mounting", "word:20"),
    ("a", LENGTH),
    ("b", LENGTH),
    ("dbl", LENGTH),
    ("ed", LENGTH),
    ("temple", LENGTH),
    ("color", "word:60"),
    ("color_name", "text:80"),
    ("front", "color"),
    ("temples", "color"),
    ("weight", LENGTH, 0),  # of the empty frame, g; 0: not known
    ("sun", "flag", 0),
)
LENS: tuple[Field, ...] = (
    ("id", "word:60"),
    ("maker", "text:80"),
    ("name", "text:80"),
    ("design", "text:80"),
    ("material", "text:80"),
    ("coating", "text:80"),
    ("kind", "word:20", "single-vision"),
    ("light", "word:20", "clear"),
    ("impact_resistant", "flag", 0),
)
EYE: tuple[Field, ...] = (
    ("sphere", POWER),
    ("cylinder", POWER, 0),
    ("axis", "whole:0:180", 180),
    ("add", POWER, 0),
    ("prism_in", PRISM, 0),
    ("prism_up", PRISM, 0),
)
# As it was read; a distance is null where nobody gave it
PRESCRIPTION: tuple[Field, ...] = (
    ("right", "?eye", None),
    ("left", "?eye", None),
    ("pd", f"?{LENGTH}", None),
    ("pd_right", f"?{LENGTH}", None),
    ("pd_left", f"?{LENGTH}", None),
    ("pd_near", f"?{LENGTH}", None),
    ("written", "?day", None),
)
# As they were given, null where nobody measured; then those that were reckoned with
MEASURES: tuple[Field, ...] = (
    ("used_pd_right", LENGTH),
    ("used_pd_left", LENGTH),
    ("used_height_right", LENGTH),
    ("used_height_left", LENGTH),
    ("height_right", f"?{LENGTH}", None),
    ("height_left", f"?{LENGTH}", None),
    ("tilt", "?whole:-9000:9000", None),
    ("wrap", "?whole:-9000:9000", None),
    ("child", "flag", 0),
)
WISHES: tuple[Field, ...] = (
    ("tint_depth", "whole:0:10000", 0),
    ("others", "list:12:word:20", []),  # such as tint_gradient, rush
)
REASON: tuple[Field, ...] = (
    ("code", "word:40"),
    ("verdict", "one:caution|no"),
    ("eye", "one:R|L|B"),
    ("needed", "whole:-99999999:99999999"),
    ("given", "whole:-99999999:99999999"),
)
FIGURES: tuple[Field, ...] = (
    ("edge_max", LENGTH),
    ("center", LENGTH),
    ("weight", "whole:0:100000"),
    ("edge_max_at", "word:20"),
)
# ``key`` says which line it is (quoting/show/lines.py), ``text`` what that line names: a surcharge, a region, a rate.
# A line that was changed for this customer says what the list has instead, and why.
LINE: tuple[Field, ...] = (
    ("key", "word:24"),
    ("text", "text:120"),
    ("cents", CENTS),
    ("listed", f"?{CENTS}", None),
    ("reason", f"text:{LONG_REASON}", ""),
)
PAIR: tuple[Field, ...] = (
    ("frame", "whole:0:9"),  # which of the quote's frames, lenses and prescriptions, counted from 0
    ("lens", "whole:0:9"),
    ("prescription", "whole:0:3"),
    ("verdict", "one:fits|caution|no"),
    ("measures", "measures"),
    ("right", "?figures"),
    ("left", "?figures"),
    ("lines", "list:40:line"),
    ("tax_included", CENTS, 0),
    ("reasons", "list:20:reason", []),
    ("estimated", "list:3:one:pd|height|outline", []),
    ("wishes", "wishes", []),
    ("discounts", "list:10:word:60", []),  # those that were named
    ("tint", "?whole:0:7", None),  # which of the quote's tints
    ("mirror", "?mirror", None),
    ("passed", "list:6:passed", []),
)
# What version 2 has beside version 1: the tint as it was quoted, so that it can be shown and made after the shop has
# dropped it.  Shares of dyes, percentages of light and of height are in hundredths; of light the dye takes.
DYE: tuple[Field, ...] = (
    ("id", "word:60"),
    ("name", "text:60"),
    ("share", "whole:1:100000"),
)
TINT: tuple[Field, ...] = (
    ("id", "word:60"),  # in the shop's tint book; "" for one that was mixed for this customer
    ("code", "text:30"),
    ("name", "text:60"),
    ("dyes", "list:6:dye"),
    ("top", "whole:0:9990"),
    ("bottom", "?whole:0:9990", None),  # null: as at the top
    ("fade_from", "whole:0:10000", 0),  # of the height of the box, from its top
    ("fade_to", "whole:0:10000", 10000),
)
MIRROR: tuple[Field, ...] = (("id", "word:60"), ("name", "text:60"))
# What the lens with its tint and mirror passes in one state at one place: of a gradient at the top, in the middle and
# at the bottom, else at one.  ``driving``: 0 never, so dark; 1 never, since some color is missing; 2 by day; 3 always.
PASSED: tuple[Field, ...] = (
    ("percent", "whole:0:10000"),
    ("category", "whole:0:5"),
    ("driving", "whole:0:3"),
    ("color", "color"),  # of the paint of a drawn lens, and its opacity in percent
    ("opacity", "whole:0:100"),
    ("state", "word:5", "clear"),  # or degrees Celsius
)
# Several alternatives are one quote of which the customer takes one; each is one pair or two
QUOTE: tuple[Field, ...] = (
    ("number", "word:20"),  # "" for an estimate that a visitor made
    ("issued", "day"),
    ("expires", "day"),
    ("price_list", "text:40"),
    ("currency", "word:3"),
    ("region", "word:60"),
    ("frames", "list:8:frame"),
    ("lenses", "list:8:lens"),
    ("prescriptions", "list:2:prescription"),
    ("alternatives", "list:4:list:2:pair"),
    ("note", f"text:{LONG_NOTE}", ""),
    ("tints", "list:8:tint", []),
)

FORM: Form = {
    "quote": QUOTE,
    "pair": PAIR,
    "frame": FRAME,
    "lens": LENS,
    "eye": EYE,
    "prescription": PRESCRIPTION,
    "measures": MEASURES,
    "wishes": WISHES,
    "reason": REASON,
    "figures": FIGURES,
    "line": LINE,
    "dye": DYE,
    "tint": TINT,
    "mirror": MIRROR,
    "passed": PASSED,
}
