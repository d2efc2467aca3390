"""The bytes of a quote made small, and whole again.

From version 2 on the compressor begins as if it had seen ``PRIMER``, the words that most quotes have in common (RFC
1950, section 2.2, calls it a preset dictionary): a link is a third shorter.  Browsers know no such thing; but a reader
that is given the primer first, as a block that is stored as it is (RFC 1951, section 3.2.4), comes to the same.  So
what a link holds is the stream without the header and that block, with its checksum, which counts the primer too.

``PRIMER`` belongs to version 2 as its form does: whoever changes a letter of it closes every link that was made.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import struct
import zlib

# What is likeliest in a quote stands last, where it is nearest
PRIMER = "".join(
    (
        '"caution","R",","caution","L",["edge-thick","caution","B",["curve-far",["very-dark","caution","B",800,',
        '"blue_filter","slab_off","rush","sport","one_eyed","driving","night_driving","tint_gradient","mirror",',
        '"lower nasal","upper nasal","lower temporal","nasal","temporal","bottom","top",',
        '"round","oval","square","cat-eye","trapezoid","pilot","rectangle","panto",',
        '"drilled","semi-rimless","full-rim-metal","full-rim-plastic",',
        '"dark-tortoise","Dark tortoise","gold","Gold","silver","Silver","navy","Navy","black","Black",',
        '"anti-fatigue","bifocal","polarized","photochromic","progressive"],["","single-vision","clear",1],',
        ' in 1.67","Resin 1.60","Resin 1.67","Resin 1.50","Polycarbonate 1.59",',
        '"hard coat","hard coat and anti-reflective","hard coat, anti-reflective, easy to clean",',
        '[["green","Green",100],["blue","Blue",100],["rose","Rose",200],["brown","Brown",200],["gray","Gray",100]],',
        "CADGBPEURUSD",
        ']],0,[],["pd","height","outline"]],["pd","height"],[0,[]],[8000,["tint_gradient"]],[],0,null,[[',
        '["frame sun","",["frame","",["lens R","",["lens L","",["surcharge","",["surcharge 2","Prescribed prism",',
        '["surcharge L","",["surcharge R","",["discount"," offer on lenses",-["shipping free","","',
        '",0],["shipping","",650],["tax lenses"," %",["tax frame"," %",',
        ']],0,[],["height","outline"]]]],"',
        ']]],[[1,1,0,"fits",[3150,3200,2150,2100],[509,138,458,"upper temporal"],[477,134,450,"upper temporal"],',
        '[["frame","",15500],["lens R","",10900],["lens L","",10900],["',
        ",180,2000],[-2250,-750,90,2000],null,3150,3200,6000]",
    )
).encode("ascii")
HEADER = b"\x78\x01"
BLOCK = HEADER + struct.pack("<BHH", 0, len(PRIMER), 0xFFFF - len(PRIMER)) + PRIMER
PRIMED_SINCE = 2


def squeezed(version: int, raw: bytes) -> bytes:
    """The bytes as a link of this version holds them."""
    if version < PRIMED_SINCE:
        return zlib.compress(raw, 9)
    squeeze = zlib.compressobj(9, zlib.DEFLATED, -zlib.MAX_WBITS, 9, zlib.Z_DEFAULT_STRATEGY, PRIMER)
    return squeeze.compress(raw) + squeeze.flush() + struct.pack(">I", zlib.adler32(PRIMER + raw))


def unsqueezed(version: int, body: bytes, most: int) -> bytes | None:
    """The bytes that were squeezed, at most so many; None where they are damaged or more.

    >>> [unsqueezed(version, squeezed(version, b'["frame","",15500]'), 40) for version in (1, 2)]
    [b'["frame","",15500]', b'["frame","",15500]']
    >>> unsqueezed(2, squeezed(2, b"x" * 41), 40) is None
    True
    """
    whole, before = (body, 0) if version < PRIMED_SINCE else (BLOCK + body, len(PRIMER))
    try:
        unzip = zlib.decompressobj()
        found = unzip.decompress(whole, before + most)
    except zlib.error:
        return None
    return found[before:] if unzip.eof and not unzip.unused_data else None
