"""The table of all calculators, in the order in which the bench page shows them."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from quoting.calculators import fields as a
from quoting.calculators.model import Calculator, Field, Result
from quoting.kernel import calculators as first
from quoting.kernel import lens_calculators as second

NAMED_POWER = (Result("sphere", "power"), Result("cylinder", "power"), Result("axis", "axis"))
OWN_AXIS = "not held: there is no cylinder"

TABLE = (
    Calculator(
        "transposition",
        "Transposition",
        first.transposition,
        (a.sphere(-2.25), a.cylinder(-0.75), a.axis(10.0)),
        (*NAMED_POWER, Result("spherical equivalent", "power")),
        "S′ = S + C; C′ = −C; axis ± 90°; spherical equivalent S + C/2",
        "any dispensing text, such as Brooks & Borish, System for Ophthalmic Dispensing",
    ),
    Calculator(
        "crossed",
        "Two lenses held together",
        first.crossing,
        (
            a.sphere(1.0), a.cylinder(2.0), a.axis(90.0),
            a.sphere(0.0, "other-sphere"), a.cylinder(-1.0, "other-cylinder"), a.axis(180.0, "other-axis"),
        ),
        NAMED_POWER,
        "power vectors add: M = S + C/2, J0 = −(C/2)·cos 2a, J45 = −(C/2)·sin 2a",
        "Thibos, Wheeler & Horner, Optom. Vis. Sci. 74 (1997) 367",
    ),
    Calculator(
        "vertex",
        "Vertex distance",
        first.vertex,
        (
            a.sphere(-10.0), a.cylinder(0.0), a.axis(180.0),
            a.length("from", "vertex distance of this power", 12.0, 0.0, 30.0),
            a.length("to", "new vertex distance", 0.0, 0.0, 30.0),
        ),
        NAMED_POWER,
        "F′ = F / (1 − d·F) in each principal meridian; d in meters, positive toward the eye",
        "Keating, Geometric, Physical and Visual Optics: effectivity",
    ),
    Calculator(
        "prentice",
        "Prentice's rule",
        first.prentice_rule,
        (
            a.eye(), a.sphere(-4.0), a.cylinder(-2.0), a.axis(90.0),
            Field("in", "optical center toward the nose", "signed", 3.0, -40.0, 40.0),
            Field("up", "optical center upward", "signed", 2.0, -40.0, 40.0),
        ),
        (Result("base in (minus: out)", "toward"), Result("base up (minus: down)", "toward"),
         Result("amount", "prism"), Result("base direction", "angle")),
        "Δ = c·F, c in cm; with a cylinder the power matrix times the decentration",
        "Prentice's rule; with the power matrix, Long, Am. J. Optom. Physiol. Opt. 53 (1976) 119",
    ),
    Calculator(
        "prism",
        "Two prisms together",
        first.prism_combine,
        (
            a.prism("amount", "first prism", 3.0), a.angle("base", "base of the first", 0.0, 360.0),
            a.prism("other-amount", "second prism", 4.0), a.angle("other-base", "base of the second", 90.0, 360.0),
        ),
        (Result("amount", "prism"), Result("base direction", "angle"),
         Result("across (plus: to your right)", "toward"), Result("up (minus: down)", "toward")),
        "prisms add as vectors: √(x² + y²), base = atan(y/x)",
        "any dispensing text",
    ),
    Calculator(
        "prism-resolve",
        "A prism as in or out, up or down",
        first.prism_resolve,
        (a.eye(), a.prism("amount", "prism", 2.0), a.angle("base", "base direction", 45.0, 360.0)),
        (Result("base in (minus: out)", "toward"), Result("base up (minus: down)", "toward")),
        "across = Δ·cos base, up = Δ·sin base; base in is 0° of the right eye and 180° of the left",
        "National Federation of Opticianry Schools, course NFOS-12",
    ),
    Calculator(
        "near-pd",
        "Near PD",
        first.near_distance,
        (
            a.length("pd", "distance PD, both eyes", 63.0, 40.0, 80.0),
            a.length("working", "working distance from the lens", 400.0, 150.0, 2000.0),
            a.sphere(0.0, "power"),
        ),
        (Result("near PD", "mm"), Result("inset of each lens", "fine")),
        "near PD = PD − PD / (1 + W·(1/27 − F/1000)); F: power in the horizontal meridian",
        "Gerstman's formula, with the center of rotation 27 mm behind the lens",
    ),
    Calculator(
        "blank",
        "Minimum blank",
        first.blank,
        (
            a.length("a", "A, width of the lens", 52.0, 25.0, 75.0), a.length("b", "B, height", 38.0, 15.0, 70.0),
            a.length("dbl", "DBL", 18.0, 8.0, 35.0), a.length("ed", "ED", 55.0, 25.0, 90.0),
            Field("family", "shape", "word", "panto", words=a.FAMILIES),
            a.length("pd", "this eye's PD", 31.5, 20.0, 40.0),
            a.length("height", "height of the optical center", 20.0, 3.0, 60.0),
            a.length("allowance", "edging allowance", 2.0, 0.0, 5.0),
        ),
        (Result("decentration in (minus: out)", "signed"), Result("decentration up (minus: down)", "signed"),
         Result("blank by the outline", "mm"), Result("blank by the rule of thumb", "mm")),
        "outline: 2 · longest distance from optical center to it + allowance; rule: ED + 2 · decentration + allowance",
        "boxing system, ISO 8624; Brooks & Borish. The outline is estimated from A, B, ED and shape",
    ),
    Calculator(
        "thickness",
        "Thickness of a round lens",
        second.thickness,
        (
            a.sphere(-4.0), a.cylinder(-1.0), a.index(),
            Field("base", "front curve as marked at 1.530", "plain", 4.0, 0.0, 14.0),
            a.length("diameter", "diameter", 60.0, 20.0, 85.0),
            a.length("center", "least center thickness", 2.0, 0.5, 10.0),
            a.length("edge", "least edge thickness", 1.0, 0.0, 10.0),
        ),
        (Result("center", "fine"), Result("thinnest edge", "fine"), Result("thickest edge", "fine")),
        "edge = center − front sag + back sag; sag = r − √(r² − y²); back from F2 = Fv′ − F1/(1 − (t/n)·F1)",
        "Jalie, Ophthalmic Lenses and Dispensing: sagitta and back vertex power, both exact",
    ),
    Calculator(
        "tilt",
        "A tilted lens",
        second.tilt,
        (
            a.eye(), a.sphere(-6.0), a.cylinder(0.0), a.axis(180.0), a.index(),
            a.angle("tilt", "pantoscopic tilt", 0.0, 30.0), a.angle("wrap", "face-form angle", 15.0, 35.0),
        ),
        (Result("sphere as met", "power"), Result("cylinder as met", "power"), Result("axis as met", "axis"),
         Result("both tilts as one", "angle"), Result("drop of the optical center", "mm")),
        "S′ = S·(1 + sin²θ / 2n), C′ = S′·tan²θ, axis 180 for tilt and 90 for wrap; drop 1 mm for 2° of tilt",
        "Martin's formulas as taught in Brooks & Borish: a rule of thumb, up to 0.1 D from the trace of a real lens",
    ),
    Calculator(
        "tolerance",
        "Tolerances",
        second.tolerance,
        (
            Field("standard", "standard", "word", "ansi", words=a.STANDARDS),
            Field("design", "design", "word", "single-vision", words=a.DESIGNS),
            a.sphere(-4.0), a.cylinder(-1.0), a.axis(180.0),
            Field("add", "addition", "power", 0.0, 0.0, 5.0),
        ),
        (
            Result("power ±", "plain"), Result("cylinder ±", "plain"), Result("axis ±", "turn", OWN_AXIS, 90.0),
            Result("addition ±", "plain"), Result("vertical prism of the pair", "prism"),
            Result("horizontal prism of the pair", "prism"),
            Result("distance of the centers ±", "mm", "any: a lens without power has no center", 999.0),
        ),
        "rows by power, cylinder and addition; above the last row a share of the power",
        "ansi: ANSI Z80.1-2015 (quick reference guide). iso: ISO 21987 with ISO 8980-1, FROM MEMORY: compare it first",
    ),
    Calculator(
        "base-curve",
        "Base curve",
        second.base_curve,
        (
            a.sphere(-4.0), a.cylinder(-1.0), a.index(),
            Field("low", "flattest curve made", "plain", 0.5, 0.0, 14.0),
            Field("high", "steepest curve made", "plain", 8.0, 0.0, 14.0),
        ),
        (Result("by Vogel's rule", "plain"), Result("curve to take", "plain"),
         Result("its power in this material", "plain"), Result("its radius", "mm")),
        "plus: SE + 6; minus: SE/2 + 6; r = 530/curve; F1 = curve·(n − 1)/0.530",
        "Vogel's rule as taught in Brooks & Borish; curves are marked at 1.530",
    ),
    Calculator(
        "tint",
        "Tint density",
        second.tint_density,
        (
            a.percent("dye", "what the dye takes at depth 1", 50.0),
            Field("parts", "how many times as deep", "number", 2.0, 0.0, 20.0),
            a.percent("lens", "what the lens itself takes", 0.0),
        ),
        (Result("light through", "percent"), Result("light taken", "percent"), Result("optical density", "number"),
         Result("filter category", "whole", "none: less than category 4 lets through", 5.0)),
        "τ = τ_lens · τ_dye^depth; density = −log₁₀ τ; categories end at 80, 43, 18, 8 and 3 %",
        "Beer and Lambert; ISO 12312-1. For one density over all colors: a real dye's spectrum decides",
    ),
    Calculator(
        "tint-depth",
        "Depth of a dye for a wanted tint",
        second.parts_for,
        (a.percent("dye", "what the dye takes at depth 1", 50.0), a.percent("target", "what is wanted", 75.0)),
        (Result("how many times as deep", "number"),),
        "depth = ln(1 − wanted) / ln(1 − dye)",
        "Beer and Lambert, as above",
    ),
)  # fmt: skip
CALCULATORS = {one.name: one for one in TABLE}
