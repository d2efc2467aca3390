"""Numbers as text without loss, in both languages, and what counts as the same.

JSON writes the shortest decimal that reads back as the same float, in Python and in JavaScript alike.  What JSON cannot
write is spelled as {"$": "NaN"}, {"$": "Infinity"}, {"$": "-Infinity"}, and from JavaScript {"$": "-0"}.
"""

import json
import math

# The same spelling on the other side
SPELL = r"""
const spelled = (key, x) =>
  typeof x === "number" && (!Number.isFinite(x) || Object.is(x, -0))
    ? { $: Object.is(x, -0) ? "-0" : String(x) } : x === undefined ? null : x;
const unspelled = (key, x) => (x !== null && typeof x === "object" && "$" in x ? Number(x.$) : x);
"""


def spelled(value):
    """A value that JSON can write."""
    if isinstance(value, float) and not math.isfinite(value):
        return {"$": {"nan": "NaN", "inf": "Infinity", "-inf": "-Infinity"}[str(value)]}
    if isinstance(value, dict):
        return {key: spelled(one) for key, one in value.items()}
    return [spelled(one) for one in value] if isinstance(value, list | tuple) else value


def write(value):
    """As text."""
    try:
        return json.dumps(value, allow_nan=False)
    except ValueError:
        return json.dumps(spelled(value))


def _unspelled(found):
    return float(found["$"]) if "$" in found else found


def read(text):
    """From text."""
    return json.loads(text, object_hook=_unspelled)


def same(ours, theirs):
    """Whether JavaScript's value is CPython's to the last bit, the sign of a zero included.

    A whole number of Python has no zero with a sign, and JavaScript does not tell 2 from 2.0; else kinds must agree.
    """
    if isinstance(ours, dict):
        return isinstance(theirs, dict) and ours.keys() == theirs.keys() and all(same(ours[k], theirs[k]) for k in ours)
    if isinstance(ours, list | tuple):
        alike = isinstance(theirs, list) and len(ours) == len(theirs)
        return alike and all(same(one, other) for one, other in zip(ours, theirs, strict=True))
    if isinstance(ours, bool) or isinstance(theirs, bool) or not isinstance(ours, int | float):
        return type(ours) is type(theirs) and ours == theirs
    if not isinstance(theirs, int | float):
        return False
    if isinstance(ours, float) and ours == 0.0 == theirs:
        return math.copysign(1.0, ours) == math.copysign(1.0, theirs)
    return ours == theirs or (ours != ours and theirs != theirs)


def first_difference(ours, theirs, path="answer"):
    """Where two values part, for the message of a failing test."""
    if isinstance(ours, dict) and isinstance(theirs, dict) and ours.keys() == theirs.keys():
        pairs = [(f"{path}[{key!r}]", ours[key], theirs[key]) for key in ours]
    elif isinstance(ours, list | tuple) and isinstance(theirs, list) and len(ours) == len(theirs):
        pairs = [(f"{path}[{n}]", one, other) for n, (one, other) in enumerate(zip(ours, theirs, strict=True))]
    else:
        return f"{path}: CPython {ours!r}, JavaScript {theirs!r}"
    return next(first_difference(one, other, at) for at, one, other in pairs if not same(one, other))
