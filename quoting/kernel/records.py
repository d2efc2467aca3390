"""The dictionaries the kernel reads and writes, for the type checker alone.

Lengths mm, powers D, angles degrees, money integer cents, rates integer basis points.
Each eye is seen in its nasal frame: x toward the nose, y up, as if the wearer faced us with the right eye;
the left eye's axis is mirrored on the way in.  So the two eyes of a mirrored prescription are one computation.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from typing import TypedDict


class Eye(TypedDict):
    """A prescription for one eye; base in and base up are positive."""

    sphere: float
    cylinder: float
    axis: float
    add: float
    prism_in: float
    prism_up: float


class Frame(TypedDict):
    """One size of one frame with its outline in the nasal frame, counter-clockwise from the nasal side."""

    a: float
    b: float
    dbl: float
    ed: float
    xs: list[float]
    ys: list[float]
    traced: bool
    mounting: str
    min_edge: float
    edge_caution: float
    edge_no: float
    curve: float
    wrap: float
    tilt: float
    weight: float


class Range(TypedDict):
    """Powers that are made.  Where ``near`` is true, the near power must lie in its limits too."""

    low: float
    high: float
    cylinder: float
    add_from: float
    add_to: float
    diameter: float
    near: bool
    near_from: float
    near_to: float


class Step(TypedDict):
    low: float
    high: float
    value: float


class Band(TypedDict):
    low: float
    high: float
    cents: int


class Package(TypedDict):
    """A lens package.  ``transmittance`` and ``darkened`` (photochromics) in percent of the light; 0: not stated."""

    kind: str
    index: float
    density: float
    drillable: bool
    impact_resistant: bool
    finished: bool
    min_height: float
    min_above: float
    boost: float
    conic: float
    base_from: float
    base_to: float
    position_of_wear: bool
    wrap: bool
    ranges: list[Range]
    curves: list[Step]
    centers: list[Step]
    min_center: float
    prism: float
    prices: list[Band]
    light: str
    tint_depth: float
    tint_over: bool
    mirror: bool
    back_ar: bool
    blue_filter: bool
    double_use: bool
    transmittance: float
    darkened: float


class Limits(TypedDict):
    edging_allowance: float
    curve_difference: float
    wrap_angle: float
    wrap_curve: float
    pow_tilt: float
    pow_wrap: float
    curve_factor: float
    boost_add: float
    reading_drop: float
    reading_imbalance: float
    image_difference: float
    gradient_height: float
    driving_least: float
    night_least: float


class Measures(TypedDict):
    """Where the pupils are: monocular PD, pupil height above the lowest point of the box, and how far the cornea lies
    behind the back of the lens."""

    pd_right: float
    pd_left: float
    height_right: float
    height_left: float
    child: bool
    vertex: float


class Options(TypedDict):
    """What is wished beyond the package, and what the glasses are for.

    ``tint_depth`` is the light a tint takes at its darkest, in percent; 0: no tint.
    """

    tint_depth: float
    tint_gradient: bool
    mirror: bool
    blue_filter: bool
    slab_off: bool
    rush: bool
    sport: bool
    one_eyed: bool
    driving: bool
    night_driving: bool


class Surcharge(TypedDict):
    id: str
    when: str
    over: float
    mounting: str
    per_lens: bool
    cents: int


class Discount(TypedDict):
    """Only those that apply on the day and to this customer, in the order of the price list."""

    id: str
    on: str
    basis_points: int
    cents: int
    combinable: bool


class Region(TypedDict):
    shipping_cents: int
    free_from_cents: int
    tax_frame: int
    tax_lenses: int
    tax_shipping: int


class Money(TypedDict):
    frame_cents: int
    surcharges: list[Surcharge]
    discounts: list[Discount]
    region: Region
    tax_included: bool


class Job(TypedDict):
    """One question to the engine: these lenses, in this frame, for these eyes, at these prices."""

    frame: Frame
    package: Package
    limits: Limits
    right: Eye
    left: Eye
    has_right: bool
    has_left: bool
    measures: Measures
    money: Money
    options: Options


class Reason(TypedDict):
    code: str
    verdict: str
    eye: str
    needed: float
    given: float


class Grind(TypedDict):
    """What gives a lens its surfaces: power at its reference point, true front power, index, prism wedge per mm."""

    sphere: float
    cylinder: float
    axis: float
    front: float
    conic: float
    index: float
    wedge_x: float
    wedge_y: float


class Rim(TypedDict):
    """An outline from the reference point of the lens, and how far its farthest point lies."""

    xs: list[float]
    ys: list[float]
    reach: float


class Sides(TypedDict):
    """Of each side of a rim: its triangle with the reference point, and its mean squared distance from it, both mm²."""

    areas: list[float]
    squares: list[float]


class Seat(TypedDict):
    """Where a lens sits in a frame, and the outline from there: what all lenses that sit there have in common."""

    height: float
    decentration_in: float
    decentration_up: float
    rim: Rim
    sides: Sides


class Lens(TypedDict):
    """One lens as it will be edged; ``fault`` is "" or the reason code that stopped the computation."""

    fault: str
    base_curve: float
    front: float
    center: float
    edge_max: float
    edge_max_at: str
    edge_min: float
    edge_min_at: str
    weight: float
    decentration_in: float
    decentration_up: float
    blank_exact: float
    blank_rule: float
    blank_largest: float
    height: float
    strongest: float
    reach: float


class Line(TypedDict):
    code: str
    id: str
    kind: str
    eye: str
    count: int
    cents: int


class Bill(TypedDict):
    priced: bool
    lines: list[Line]
    total_cents: int
    tax_included_cents: int


class Fit(TypedDict):
    verdict: str
    reasons: list[Reason]
    right: Lens
    left: Lens


class Span(TypedDict):
    """Spheres in steps of a quarter diopter, both ends included, over which the verdict is no worse than this."""

    verdict: str
    low: float
    high: float


class Mounting(TypedDict):
    """What another mounting would hold: its name, its thinnest edge, and from which edge on it warns and forbids."""

    mounting: str
    min_edge: float
    edge_caution: float
    edge_no: float


class Remedy(TypedDict):
    """One change, the reasons that are gone with it, and the verdict that the engine then gives.

    ``low`` and ``high`` are the ends of what the changed number may be, equal where it is one value; ``number`` says
    which of several sizes, mountings or packages it is.
    """

    what: str
    codes: list[str]
    low: float
    high: float
    number: int
    verdict: str


class Answer(TypedDict):
    fit: Fit
    bill: Bill


class Path(TypedDict):
    """A ray through a lens: unit directions, all going toward the eye, and the points where it meets the surfaces.

    ``hit`` is false where there is no such ray; the rest is then of no meaning.  In the lens's own frame: x toward
    the nose, y up, z from the front vertex toward the eye, mm.
    """

    hit: bool
    before: list[float]
    front: list[float]
    inside: list[float]
    back: list[float]
    after: list[float]


class Worn(TypedDict):
    """What one lens does where it is worn, straight ahead; ``flag`` is "" or why there is no answer, or no full one.

    First what the eye meets: power, prism (base in and up), magnification.  Then how far that is from what was
    prescribed.  Then what to order so that the eye meets what was prescribed; the prescription itself where
    ``converged`` is false.  Last what Martin's formulas say, the rule of thumb.
    """

    flag: str
    sphere: float
    cylinder: float
    axis: float
    prism_in: float
    prism_up: float
    magnification: float
    shape_factor: float
    power_factor: float
    error_sphere: float
    error_cylinder: float
    error_axis: float
    error_in: float
    error_up: float
    converged: bool
    order_sphere: float
    order_cylinder: float
    order_axis: float
    order_in: float
    order_up: float
    martin_sphere: float
    martin_cylinder: float
    martin_axis: float


class Settled(TypedDict):
    """A lens whose center is found: its thinnest and thickest edge, each as [thickness, x, y]."""

    center: float
    edge_min: list[float]
    edge_max: list[float]


class Glass(TypedDict):
    """A lens without its tint, as spectra, 280 to 780 nm by 5: what passes between its surfaces, what each reflects."""

    internal: list[float]
    front: list[float]
    back: list[float]


class Tint(TypedDict):
    """Dyes by what each passes at depth 1, their parts, and the light that the dye takes at both ends, in percent.

    ``fade_from`` and ``fade_to`` are where a gradient begins and ends, as shares of the box from its top.
    """

    dyes: list[list[float]]
    parts: list[float]
    top: float
    bottom: float
    fade_from: float
    fade_to: float


class Filter(TypedDict):
    """A tinted lens at one place: percents of light; ``least_share`` of 475 to 650 nm; sRGB channels from 0 to 1.

    ``reflected`` is what the lens itself sends back, ``blue``, ``green``, ``red`` what it passes around these colors.
    ``through`` is the color of white light seen through it, ``on_white`` and ``on_skin`` that of the lens on a ground.
    """

    percent: float
    category: int
    uva: float
    uvb: float
    uv_kept: bool
    least_share: float
    reflected: float
    blue: float
    green: float
    red: float
    day: bool
    night: bool
    xyz: list[float]
    lab: list[float]
    through: list[float]
    on_white: list[float]
    on_skin: list[float]


class Recipe(TypedDict):
    """Parts of each dye and the depth of the mixture; what it passes, its color, and how far from the wanted one."""

    parts: list[float]
    depth: float
    passed: float
    lab: list[float]
    difference: float


class Told(TypedDict):
    """One thing to say about a filter, with the percent it is about, 0 where it is about none."""

    code: str
    percent: float


class Readings(TypedDict):
    """What was ordered of one lens, or what lensmeter, ruler and caliper read of it; NOT_READ where nobody did.

    The axis as written, base in and up positive; the PD is this eye's own, the height that of the optical center, of
    the fitting cross or of the segment, whose line is tilted by ``segment_tilt`` degrees.
    """

    sphere: float
    cylinder: float
    axis: float
    add: float
    prism_in: float
    prism_up: float
    pd: float
    height: float
    center: float
    base: float
    segment_tilt: float


class Check(TypedDict):
    """One value held against its order; ``eye`` is R, L or B for the pair, ``verdict`` pass or fail."""

    code: str
    eye: str
    ordered: float
    found: float
    tolerance: float
    off: float
    verdict: str
