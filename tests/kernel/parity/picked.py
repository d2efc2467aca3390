"""Hand-picked calls and jobs: the branches that drawn ones miss, and edges worth a place of their own."""

import random

from quoting.kernel import filters
from quoting.kernel.lens import lens_for, nasal
from quoting.kernel.seat import seat_for
from quoting.kernel.sight import worn_axes
from quoting.kernel.thickness import grind
from quoting.kernel.verified import nothing_read
from tests.kernel import jobs as made
from tests.kernel.parity import dyeing, mending

CROSS = {"xs": [20.0, 0.0, -20.0, 0.0], "ys": [0.0, 20.0, 0.0, -20.0], "reach": 20.0}
PLANO = grind(0.0, 0.0, 180.0, 0.0, 0.0, 1.5)
STRONG = grind(8.0, -2.0, 30.0, 12.0, 0.0, 1.5)
# Its center comes nearer and nearer to what 15.8 mm at the edge ask, but not within forty rounds
STEEP = grind(-18.06, 0.0, 180.0, 11.8, 0.0, 1.6)
# Glass so thick that no float meets its edge to a millionth of a micrometer
ENDLESS = grind(-8.593216199342626, 0.0, 180.0, 11.18985678333654, 0.0, 1.6) | {"wedge_x": -0.2662117645537461}
# A front that focuses within the glass
BALL = grind(-4.0, 0.0, 180.0, 60.0, 0.0, 1.5)
# Tilted so far that each order asks for the next
SLANTED = grind(0.0, 0.0, 180.0, 4.1, 0.0, 1.6)
# A back so far behind that Newton's method does not meet it to 1e-13 mm
FAR = grind(-10.28, -2.16, 30.0, 3.7, 0.0, 1.6)


def calls():
    """[module, function, arguments]."""
    return [
        ["center", "solved_center", [ENDLESS, CROSS, 1.0, 61937178.86446312]],
        ["center", "center_for_point", [STRONG, 1.0, 2.0, 300.0, 0.0]],
        ["center", "center_for_point", [STEEP, 15.8, 1.0, 20.0, 0.0]],
        ["curves", "radius", [0.0, 1.5]],
        ["curves", "index_by_clock", [0.0, 1.53, 2.0]],
        ["estimates", "bending", [0.01, 0.01]],
        ["elementary", "angle_deg", [0.0, 0.0]],
        ["elementary", "angle_deg", [1.0, -1e-20]],
        ["elementary", "angle_deg", [-0.0, -2.0]],
        ["elementary", "exp", [-30.0]],
        ["elementary", "ln", [5e-324]],
        ["elementary", "ln", [1.7e308]],
        ["elementary", "ln", [float("inf")]],
        ["elementary", "sin_deg", [1e15]],
        ["power", "from_vector", [-2.0, 0.0, 0.0]],
        ["power", "transposed", [-2.0, 0.0, 90.0]],
        ["power", "at_vertex", [100.0, 10.0]],
        ["layout", "near_pd", [63.0, 400.0, 1000.0 / 27.0]],
        ["swap", "held_alike", ["semi-rimless", "semi-rimless"]],
        ["swap", "held_alike", ["semi-rimless", "full-rim-metal"]],
        ["swap", "held_alike", ["drilled", "full-rim-metal"]],
        ["swap", "radii_from", [[10.0, -10.0, -10.0, 10.0], [10.0, 10.0, -10.0, -10.0], 2.0, 10.0]],
        ["calculators", "blank", [52.0, 38.0, 18.0, 90.0, "panto", 31.5, 20.0, 2.0]],
        ["calculators", "near_distance", [63.0, 400.0, 40.0]],
        ["calculators", "blank", [52.0, 38.0, 18.0, 99.0, "panto", 31.5, 20.0, 2.0]],
        ["tolerance_iso", "distance_within_iso", ["single-vision", 0.0]],
        ["outline", "from_radii", [[]]],
        ["outline", "box", [[], []]],
        ["lines", "share", [9007199254740991, 2]],
        ["lines", "share_within", [12100, -10000]],
        ["chromatic", "climbed", [[0.0, 0.0, 0.0], [1.0, 0.0], [1.0, 0.0], 5.0]],
        ["bevel", "arc_of", [10.0, 4.0]],
        ["bevel", "lifted_side", [1.0, 2.0, 1.0, 2.0, 0.01]],
        ["boxing", "nearest", [[1.0, 1.0, -1.0], [0.0, 0.0, 1.0], 0.5, 0.0]],
        ["checked", "faults", [made.job(money=made.money(frame_cents=-1))]],
        ["ranges", "ranges_that_fit", [made.job(made.eye(99.0))]],
        ["ranges", "ranges_that_fit", [made.job()]],
        ["sight", "order_for", [SLANTED, 5.8, 5.6, worn_axes(36.0, 12.0), [22.0, 0.0, 22.0, 0.0, 0.0]]],
        *mending.calls(),
        *light(),
        *spots(),
        *traces(),
        *rays(),
        *worn(),
        *verified(),
    ]


def light():
    """Tints and colors where drawn ones hardly come."""
    red, green, blue, gray = (dyeing.curve(random.Random(f"picked {n}")) for n in range(4))
    glass = {"internal": [0.99] * 101, "front": [0.04] * 101, "back": [0.05] * 101}
    color = [50.0, 20.0, 10.0]
    hues = [[50.0, 20.0, 1.0], [50.0, 20.0, -1.0], [50.0, -20.0, 1.0], [50.0, -20.0, -1.0], [50.0, 0.0, 0.0]]
    hues += [[50.0, -5.0, -20.0], [50.0, 5.0, 20.0]]
    fewer = [0.9] * 20 + [0.0] * 81
    # Each wavelength a hundred times as faint as the last: Newton's method goes from one to the next
    slow = [0.0] * 20 + [0.01 ** abs(i - 35) for i in range(81)]
    far = {"parts": [900.0, 0.0], "depth": 1.0, "passed": 0.3, "lab": color, "difference": 1e9}
    return [
        *[["color_difference", "difference", [one, other]] for one in hues for other in hues],
        *[["color_difference", "hue_step", [one, other]] for one, other in ((1.0, 359.0), (359.0, 1.0), (0.0, 180.0))],
        *[
            ["color_difference", "middle_hue", [one, other]]
            for one, other in ((1.0, 359.0), (200.0, 300.0), (10.0, 350.0))
        ],
        *[
            ["luminous", name, [[value] * 101]]
            for value in (0.0, 0.02, 0.05, 0.9)
            for name in ("uv_kept", "least_share")
        ],
        *told(),
        ["luminous", "uv_kept", [[0.0] * 20 + [0.05] * 81]],
        ["luminous", "uv_kept", [[0.0] * 20 + [0.5] * 81]],
        ["luminous", "least_share", [[0.5] * 60 + [0.01] * 41]],
        ["spectrum", "mixed", [[red, green], [0.0, 0.0]]],
        *[
            ["spectrum", "resampled", [first, step, [0.1, 0.9, 0.4]]]
            for first in (280.0, 500.0)
            for step in (5.0, 100.0, 0.5)
        ],
        *[
            ["tinting", "depth_for", [[density] * 101, percent]]
            for density in (0.0, 0.7)
            for percent in (0.0, 50.0, 99.95)
        ],
        ["tinting", "depth_for", [fewer, 50.0]],
        *[["recipes", "match", [glass, dyes, 0.3, color]] for dyes in ([red], [red, blue], [red, green, blue, gray])],
        ["recipes", "match", [glass, [red] * 13, 0.3, color]],
        ["recipes", "match", [glass, [[1.0] * 101], 0.3, color]],
        ["recipes", "match", [glass, [red], 0.99, color]],
        ["recipes", "match", [glass, [red, green, blue, gray, blue[::-1]], 0.3, color]],
        ["recipes", "neared", [glass, [red, blue], [0, 1], far, 0.3, color]],
        ["recipes", "depth_behind", [glass, slow, 0.001]],
        ["tinting", "depth_for", [slow, 99.95]],
        ["recipes", "at_lightness", [[0.0, 0.0, 0.0], 0.5]],
    ]


def told():
    """What follows from filters of all kinds."""
    plain = {"internal": [1.0] * 101, "front": [0.04] * 101, "back": [0.04] * 101}
    curves = [[value] * 101 for value in (0.95, 0.6, 0.4, 0.25, 0.05)]
    for first, last in ((34, 42), (47, 56), (66, 76)):
        curves += [[low + more * (first <= i <= last) for i in range(101)] for low, more in ((0.3, 0.5), (0.6, -0.55))]
    curves.append([0.0] * 21 + [0.9] * 80)
    found = [filters.filter_of(plain, curve, 8.0, 75.0) for curve in curves]
    found.append(filters.filter_of(plain | {"front": [0.3] * 101}, curves[3], 8.0, 75.0))
    calls = [["consequences", "consequences", [one, [], [], 8.0, known]] for one in found for known in (True, False)]
    clear, dark, darker = found[0], found[3], found[4]
    return [*calls, ["consequences", "consequences", [clear, [darker, dark, clear], [5, 23, 35], 8.0, True]]]


def spots():
    """The thinnest and thickest spot of a lens of each kind."""
    square = {"xs": [20.0, -20.0, -20.0, 20.0], "ys": [20.0, 20.0, -20.0, -20.0], "reach": 28.3}
    ringed = grind(0.25, -0.5, 180.0, 6.0, -2.5, 1.6)
    lenses = [grind(-3.0, 0.0, 180.0, 4.0, 0.0, 1.6), grind(3.0, -1.0, 30.0, 6.0, 0.0, 1.6), ringed]
    lenses += [one | {"wedge_x": 0.05, "wedge_y": -0.02} for one in lenses]
    return [["extremes", "extreme", [one, square, 4.0, sign]] for one in lenses for sign in (1.0, -1.0)]


def traces():
    """Traces with one fault each, and of either side."""
    radii, angles = [25.0, 24.0, 25.0, 24.0], [0.0, 90.0, 180.0, 270.0]
    rough = [45.0, 45.0, 0.1, 0.1, 45.0, 45.0, 0.1, 0.1]
    faults = [
        (radii, angles),
        (radii[:2], angles[:2]),
        (radii, angles[:3]),
        ([*radii[:3], 2000.0], angles),
        (radii, [*angles[:3], 2000.0]),
        ([*radii[:3], 0.0], angles),
        (radii, [0.0, 90.0, 180.0, 180.0]),
        (radii, [-1.0, 90.0, 180.0, 270.0]),
        (radii, [10.0, 90.0, 180.0, 361.0]),
        (radii, [0.0, 90.0, 180.0, 360.0]),
        (radii, [0.0, 30.0, 60.0, 90.0]),
        (rough, [45.0 * n for n in range(8)]),
    ]
    told = [["trace_faults", "trace_faults", [*one, 50.0, b]] for one in faults for b in (48.0, 40.0)]
    return told + [["trace", "from_trace", [radii, angles, side]] for side in ("R", "L", "B", "")]


def rays():
    """Rays that stop where few do."""
    axis = [0.0, 0.0, 1.0]
    through = {"hit": True, "before": axis, "front": [0.0, 0.0, 0.0], "inside": axis, "back": [0.0, 0.0, 25.0]}
    return [
        ["ray", "conic_hit", [[-22.5, -27.6, 0.0], unit(0.752, 0.594, 0.286), 0.064, 1.4]],
        ["ray", "back_hit", [FAR, 612.3, [21.8, -32.7, 0.0], unit(-0.38580150, -0.01624605, 0.92243876)]],
        ["astigmatic", "power_along", [BALL, 2.0, through | {"after": axis}, [[1.0, 0.0, 0.0], [0.0, 1.0, 0.0]]]],
        ["sight", "met", [BALL, 24.76209277392271, 0.0, worn_axes(6.0, 0.0)]],
        ["sight", "met", [PLANO, 2.0, 0.0, worn_axes(0.0, 90.0)]],
        *gazes(),
    ]


def gazes():
    """Eyes that look past the lens, through it to nowhere, or along a line with a focus on it."""
    level = worn_axes(0.0, 0.0)
    deep, wedge = grind(-20.0, 0.0, 180.0, 0.5, 0.0, 1.5), PLANO | {"wedge_y": 1.2}
    looks = [
        [deep, 2.0, 0.0, level, 13.0, 60.0, 0.0],
        [wedge, 2.0, 0.0, level, 13.0, 45.0, 0.0],
        [BALL, 24.76209277392271, 0.0, worn_axes(6.0, 0.0), 13.0, 0.0, 0.0],
        [BALL, 15.432586068495064, 0.0, level, 13.0, 5.0, 0.0],
    ]
    return [["gaze", "met_in_gaze", look] for look in looks]


def worn():
    """Real lenses as they are worn, and some beyond any lens."""
    job = made.job(made.eye(-4.0, -1.0, 30.0, prism_in=1.0))
    eye = nasal(job["right"], False)
    lens = lens_for(job, eye, seat_for([], job["frame"], "single-vision", 32.0, 24.0))
    wraps = [made.job(frame=made.frame(wrap=wrap, tilt=tilt)) for wrap in (0.0, 15.0, 25.0) for tilt in (0.0, 12.0)]
    cases = [(one, eye, lens) for one in (job, *wraps)]
    cases += [(job, eye, lens | {"fault": "not-made"}), (job, eye | {"sphere": 31.0}, lens)]
    near = made.job(measures=made.measures(vertex=30.0), frame=made.frame(wrap=30.0, tilt=0.0))
    cases += [(near, eye | {"sphere": 30.0, "cylinder": 0.0, "prism_in": 0.0}, lens | {"front": 25.0, "center": 2.0})]
    cases += [(job, eye, lens | {"center": 0.0}), (made.job(frame=made.frame(tilt=50.0)), eye, lens)]
    focused = ["wearer", "image_rule", [job, eye, eye | {"sphere": 80.0}, lens, lens, []]]  # before the pupil
    return [["wearing", "as_worn", list(case)] for case in cases] + [focused]


def unit(x, y, z):
    length = (x * x + y * y + z * z) ** 0.5
    return [x / length, y / length, z / length]


def verified():
    """Pairs held against their orders by both standards: read whole, in parts, and in the other notation."""
    ordered = nothing_read() | {"sphere": -2.0, "cylinder": -1.0, "axis": 170.0, "add": 2.0, "prism_in": 0.0}
    ordered |= {"prism_up": 0.0, "pd": 31.0, "height": 20.0, "center": 2.0, "base": 6.0, "segment_tilt": 0.0}
    found = ordered | {"sphere": -3.1, "cylinder": 1.2, "axis": 3.0, "add": 2.2, "prism_up": 0.5, "pd": 34.0}
    sphere = nothing_read() | {"sphere": -6.0, "cylinder": 0.0, "axis": 180.0, "height": 20.0, "pd": 31.0}
    lower = sphere | {"height": 18.0}
    prism = ordered | {"prism_in": 2.0, "prism_up": -1.0}
    calls = []
    for standard in ("ansi", "iso", "din"):
        for kind in ("single-vision", "bifocal", "progressive"):
            for one, other in ((ordered, found), (ordered, nothing_read()), (sphere, found), (ordered, sphere)):
                calls.append(["verified", "lens_checks", [standard, kind, "R", one, other]])
                calls.append(["verified_pair", "pair_checks", [standard, kind, one, one, [other, one]]])
                calls.append(["verified_pair", "alone_checks", [standard, kind, "R", one, other]])
                calls.append(["verified", "lacking", [kind, one, other]])
            calls.append(["verified_pair", "pair_checks", [standard, kind, sphere, sphere, [sphere, lower]]])
            calls.append(["verified_pair", "alone_checks", [standard, kind, "L", sphere, lower]])
            calls.append(["verified", "lacking", [kind, prism, nothing_read()]])
    flat = nothing_read() | {"sphere": 0.0, "cylinder": 0.0, "axis": 180.0, "pd": 31.0}
    calls.append(["verified_pair", "pair_checks", ["ansi", "single-vision", flat, flat, [flat, flat]]])
    mixed = nothing_read() | {"sphere": 1.0, "cylinder": -3.0, "axis": 90.0}
    return [*calls, ["verified", "lens_checks", ["ansi", "bifocal", "L", mixed, mixed]]]


def jobs():
    """Whole jobs."""
    sphere = made.eye(-2.0)
    return [
        made.job(),
        made.job(right=made.eye(-2.0, prism_in=1.0)),
        made.job(right=made.eye(-2.0, add=1.0)),
        made.job(has_right=False, has_left=False),
        made.job(made.eye(-0.0, -0.0, 180.0, 0.0, -0.0, -0.0)),
        made.job({key: int(value) for key, value in sphere.items()}),
        made.job(money=made.money(surcharges=[made.surcharge("no such")])),
        made.job(package=made.package(index=1.0)),
        made.job(package=made.package(ranges=[])),
        made.job(package=made.package(prices=[])),
        made.job(frame=made.frame() | {"xs": [], "ys": []}),
        made.job(frame=made.frame() | {"xs": [1.0], "ys": []}),
        made.job(frame=made.frame() | {"xs": [1.0, 0.0, -999.0], "ys": [0.0, 1.0, 0.0]}),
        *[made.job(made.eye(sphere)) for sphere in (float("nan"), float("inf"), -float("inf"), 1e308, -1e308, 41.0)],
    ]
