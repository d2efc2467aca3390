"""The parts of a quote in a link, in words: frame, lens, prescription, measurements, thickness, cautions."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from quoting.catalog.shop import ABOUT, About, Shop
from quoting.kernel.power import strongest
from quoting.languages import _
from quoting.prescription.model import Distances, EyeRx, Prescription
from quoting.quoted import records
from quoting.quoted.positional import day_of
from quoting.show import amounts
from quoting.show.amounts import mm
from quoting.show.cautions import STRONG_PLUS_D, sentences
from quoting.show.quote_words import WISHED
from quoting.show.reasons import customer_of
from quoting.show.terms import LIGHTS, MOUNTINGS, PLACES
from quoting.show.text import SHORT


def plain(hundredths: int) -> str:
    """A length without needless decimals.

    >>> plain(5200), plain(3150)
    ('52', '31.5')
    """
    return amounts.plain(hundredths / 100)


def size_key(frame: records.Frame) -> str:
    """The size's key, whatever language is spoken."""
    return f"{frame['a'] / 100:g}-{frame['dbl'] / 100:g}"


def size_label(frame: records.Frame) -> str:
    """The size as printed on temples."""
    return f"{plain(frame['a'])}□{plain(frame['dbl'])} {plain(frame['temple'])}"


def frame_name(frame: records.Frame) -> str:
    """Frame, size and colorway."""
    return f"{frame['maker']} {frame['name']} {size_label(frame)}, {frame['color_name']}"


def box_line(frame: records.Frame) -> str:
    """How the lenses are held, and the box."""
    held = _(MOUNTINGS.get(frame["mounting"], frame["mounting"]))
    return f"{held}; A {plain(frame['a'])} B {plain(frame['b'])} DBL {plain(frame['dbl'])} ED {plain(frame['ed'])}"


def lens_line(lens: records.Lens) -> str:
    """Maker, name and what the lens is made of."""
    light = _(LIGHTS.get(lens["light"], lens["light"]))
    made_of = f"{lens['design']}, {lens['material']}, {light}, {lens['coating']}"
    return f"{lens['maker']} {lens['name']}: {made_of}"


def eye_of(eye: records.Eye | None) -> EyeRx | None:
    """An eye as the rest of the house has it, D."""
    if eye is None:
        return None
    return EyeRx(
        eye["sphere"] / 1000,
        eye["cylinder"] / 1000,
        eye["axis"],
        eye["add"] / 1000,
        eye["prism_in"] / 1000,
        eye["prism_up"] / 1000,
    )


def _mm(value: int | None) -> float | None:
    return None if value is None else value / 100


def prescription_of(rx: records.Prescription) -> Prescription:
    """A prescription as the rest of the house has it."""
    pd = Distances(_mm(rx["pd"]), _mm(rx["pd_right"]), _mm(rx["pd_left"]), _mm(rx["pd_near"]))
    written = day_of(rx["written"]) if rx["written"] is not None else None
    return Prescription(eye_of(rx["right"]), eye_of(rx["left"]), pd, written)


def measure_lines(pair: records.Pair) -> list[str]:
    """What was reckoned with where the pupils are, and which of it is an estimate."""
    used = pair["measures"]
    pd, heights = (used["used_pd_right"], used["used_pd_left"]), (used["used_height_right"], used["used_height_left"])
    told = []
    if "pd" in pair["estimated"]:
        told.append(_("PD {right}/{left} mm, estimated").format(right=plain(pd[0]), left=plain(pd[1])))
    text = (
        _("Heights {right}/{left} mm, estimated") if "height" in pair["estimated"] else _("Heights {right}/{left} mm")
    )
    told.append(text.format(right=plain(heights[0]), left=plain(heights[1])))
    for text, value in ((_("Tilt as worn {angle}°"), used["tilt"]), (_("Face-form angle {angle}°"), used["wrap"])):
        if value is not None:
            told.append(text.format(angle=plain(value)))
    wished = wish_texts(pair)
    return [*told, _(WISHED["wished"]).format(what=", ".join(wished))] if wished else told


def wish_texts(pair: records.Pair) -> list[str]:
    """What was wished beyond the lens, and whom it is for; what nobody knows any more is left out.

    Of a mix and a certain mirror `quoting.show.tint_lines` tells.
    """
    depth, others = pair["wishes"]["tint_depth"], pair["wishes"]["others"]
    depth = depth if pair["tint"] is None else 0
    others = [name for name in others if name != "mirror" or pair["mirror"] is None]
    tint = "tint_gradient" if "tint_gradient" in others else "tint"
    names = [tint] * bool(depth) + [name for name in others if name != "tint_gradient"]
    names += ["child"] * pair["measures"]["child"]
    known = (WISHED.get(f"wish-{name}") for name in names)
    return [_(text).format(depth=plain(depth)) for text in known if text]


def reason_text(reason: records.Reason, kind: str) -> str:
    """What the customer is told of one reason."""
    code, verdict, eye = reason["code"], reason["verdict"], reason["eye"]
    needed, given = reason["needed"] / 100, reason["given"] / 100
    return customer_of({"code": code, "verdict": verdict, "eye": eye, "needed": needed, "given": given}, kind)


def figure_lines(pair: records.Pair, frame: records.Frame) -> list[str]:
    """How thick and how heavy the lenses come out."""
    text = _("{side}  thickest edge {edge} mm {at}, center {center} mm, {weight} g")
    lenses = [(side, pair_lens) for side, pair_lens in (("R", pair["right"]), ("L", pair["left"])) if pair_lens]
    told = [
        text.format(
            side=_(SHORT[side]),
            edge=mm(one["edge_max"] / 100),
            at=_(PLACES.get(one["edge_max_at"], one["edge_max_at"])),
            center=mm(one["center"] / 100),
            weight=mm(one["weight"] / 100),
        )
        for side, one in lenses
    ]
    both = sum(one["weight"] for _side, one in lenses) / 100
    if lenses and frame["weight"]:
        whole = _("lenses {lenses} g, with the frame {whole} g")
        told.append(whole.format(lenses=mm(both), whole=mm(both + frame["weight"] / 100)))
    elif lenses:
        told.append(_("lenses {lenses} g").format(lenses=mm(both)))
    return told


def about_pair(quote: records.Quote, pair: records.Pair) -> set[About]:
    """What cautions there are about a pair."""
    lens, rx = quote["lenses"][pair["lens"]], prescription_of(quote["prescriptions"][pair["prescription"]])
    found: set[str] = {"quote", lens["kind"], lens["light"]}
    found.add("impact-resistant" if lens["impact_resistant"] else "not-impact-resistant")
    if pair["wishes"]["tint_depth"]:
        found.add("tinted")
    powers = [strongest(eye.sphere, eye.cylinder) for eye in (rx.right, rx.left) if eye is not None]
    if any(power >= STRONG_PLUS_D for power in powers):
        found.add("strong-plus")
    return {word for word in ABOUT if word in found}


def cautions_of(quote: records.Quote, shop: Shop) -> list[str]:
    """What must be read with a quote: what the shop says of every one, and what matters of the lenses in this."""
    here = {word for pairs in quote["alternatives"] for pair in pairs for word in about_pair(quote, pair)}
    return [*shop.cautions, *(sentence for word in ABOUT if word in here for sentence in sentences(shop, word))]
