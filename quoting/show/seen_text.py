"""A quote as plain text, for terminals and letters."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from collections.abc import Iterator

from quoting.languages import _
from quoting.show.amounts import day
from quoting.show.recorded import frame_name
from quoting.show.seen import Row, Seen, SeenAlternative, SeenPair
from quoting.show.terms import verdict


def seen_text(one: Seen, customer: str = "", link: str = "") -> str:
    """The whole quote, with its link where there is one; without a number it is an estimate, and holds nothing."""
    title = _("{shop}: quote {number} for {customer}") if customer else _("{shop}: quote {number}")
    facts = _("issued {issued}, price held until {expires}, price list {version}")
    if not one.number:
        title, facts = _("{shop}: an estimate"), _("made {issued}, price list {version}")
    rows = [
        title.format(shop=one.shop.name, number=one.number, customer=customer),
        facts.format(issued=day(one.issued), expires=day(one.expires), version=one.price_list),
        "",
    ]
    if len(one.alternatives) > 1:
        rows += [_("{count} alternatives, of which you take one:").format(count=len(one.alternatives)), ""]
    for alternative in one.alternatives:
        rows += [*alternative_lines(alternative), ""]
    rows += [_("Note: {note}").format(note=one.note), ""] if one.note else []
    rows += one.cautions
    return "\n".join([*rows, "", link] if link else rows)


def alternative_lines(one: SeenAlternative) -> Iterator[str]:
    """One alternative, its pairs below each other."""
    if one.letter:
        yield f"{one.letter}  " + "=" * 60
    for pair in one.pairs:
        if pair is not one.pairs[0]:
            yield ""
        yield from pair_lines(pair)
    if len(one.pairs) > 1:
        yield ""
        yield _("Both pairs: {amount}").format(amount=one.total)


def pair_lines(one: SeenPair) -> Iterator[str]:
    """One pair of glasses."""
    if one.title:
        yield one.title
    yield from one.rx
    yield from one.measures
    yield frame_name(one.frame)
    yield one.box
    yield one.lens
    yield from one.tint
    yield _("Verdict: {verdict}").format(verdict=verdict(one.verdict))
    yield from (f"  {reason}" for reason in one.reasons)
    yield from one.figures
    yield ""
    yield from bill_lines(one)
    if one.estimates:
        yield ""
    yield from (_("Note: {note}.").format(note=estimate) for estimate in one.estimates)


def bill_lines(one: SeenPair) -> list[str]:
    """The bill, amounts right-aligned, remarks below their lines."""
    if not one.rows:
        return [_("no price")]
    rows = [*one.rows, Row(_("Total"), "", one.total)]
    wide = max(len(row.text) for row in rows)
    high = max(len(row.amount) for row in rows)
    lines = []
    for row in rows:
        if row is rows[-1]:
            lines.append("-" * (wide + high + 2))
        lines.append(f"{row.text:{wide}}  {row.amount:>{high}}")
        lines += [f"  {row.remark}"] if row.remark else []
    return [*lines, one.tax] if one.tax else lines
