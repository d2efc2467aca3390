"""Words that JavaScript keeps for itself, so that no kernel name or key may be one of them.

>>> why_no_name("typeof")
'JavaScript reserves the word'
>>> why_no_name("max")
'Python has a builtin of that name'
>>> why_no_name("edge_mm")
''
>>> why_no_key("constructor")
'every JavaScript object has a property of that name, so a missing key would not be noticed'
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import builtins
import re

# ECMA-262, 12.7.2 "Keywords and Reserved Words", with the words only strict code reserves, and the two names
# (13.1.1) that strict code may not bind. `async` is contextual; refusing it costs nothing.
_KEYWORDS = """
    arguments async await break case catch class const continue debugger default delete do else enum eval export
    extends false finally for function if implements import in instanceof interface let new null package private
    protected public return static super switch this throw true try typeof var void while with yield
"""

# ECMA-262, 19.1 to 19.4: properties of the global object, which a kernel name would hide.
_GLOBALS = """
    globalThis Infinity NaN undefined isFinite isNaN parseFloat parseInt decodeURI decodeURIComponent encodeURI
    encodeURIComponent escape unescape AggregateError Array ArrayBuffer Atomics BigInt BigInt64Array BigUint64Array
    Boolean DataView Date Error EvalError FinalizationRegistry Float32Array Float64Array Function Int16Array
    Int32Array Int8Array Intl JSON Map Math Number Object Promise Proxy RangeError ReferenceError Reflect RegExp
    Set SharedArrayBuffer String Symbol SyntaxError TypeError URIError Uint16Array Uint32Array Uint8Array
    Uint8ClampedArray WeakMap WeakRef WeakSet WebAssembly
"""

# ECMA-262, 20.1.3 and B.2.2: what every object inherits; `length` is what arrays, texts and functions have.
_INHERITED = """
    __defineGetter__ __defineSetter__ __lookupGetter__ __lookupSetter__ __proto__ constructor hasOwnProperty
    isPrototypeOf propertyIsEnumerable toLocaleString toString valueOf length
"""

RESERVED = frozenset(_KEYWORDS.split()) | frozenset(_GLOBALS.split())
INHERITED = frozenset(_INHERITED.split())

_IDENTIFIER = re.compile(r"[A-Za-z_][A-Za-z0-9_]*")
_CONSTANT = re.compile(r"_?[A-Z][A-Z0-9_]*")


def why_no_name(name: str) -> str:
    """Why the kernel may not call something so; empty when it may."""
    if not _IDENTIFIER.fullmatch(name):
        return "a name is made of the letters a to z, digits and _"
    if name in RESERVED:
        return "JavaScript reserves the word"
    if hasattr(builtins, name) and name != "_":  # an interactive Python keeps its last answer there
        return "Python has a builtin of that name"
    return ""


def why_no_key(key: str) -> str:
    """Why no kernel dict may have this key; empty when it may."""
    if not _IDENTIFIER.fullmatch(key):
        return "a key is a plain word: letters a to z, digits and _"
    if key in INHERITED:
        return "every JavaScript object has a property of that name, so a missing key would not be noticed"
    return ""


def is_constant_name(name: str) -> bool:
    """Constants are written in capitals, and nothing else is: an import can be told by its spelling.

    >>> [is_constant_name(name) for name in ("EDGE_MM", "_SINES", "edge_mm", "Edge")]
    [True, True, False, False]
    """
    return bool(_CONSTANT.fullmatch(name))
