"""Hand-picked calls about what would make it fit: what drawn jobs, which mostly fit, hardly ever come to."""

from tests.kernel import jobs as made

MOUNTINGS = [
    {"mounting": "full-rim-plastic", "min_edge": 1.0, "edge_caution": 8.0, "edge_no": 12.0},
    {"mounting": "drilled", "min_edge": 2.0, "edge_caution": 6.0, "edge_no": 8.0},
]
SMALL_BLANK = made.package(ranges=[made.part(diameter=54.0)])
NEAR = made.eye(add=2.0)


def asked_for():
    """Jobs whose remedies are worked out."""
    tall = made.progressive(min_height=26.0, min_above=10.0)
    small = made.job(frame=made.frame(40.0, 32.0, ed=43.0), package=SMALL_BLANK)
    drilled = made.frame(mounting="drilled", edge_no=3.0)
    dark = made.package(light="polarized", transmittance=5.0, tint_over=True)
    far = {"frame": made.frame(curve=0.0), "limits": made.limits(curve_difference=0.5, curve_factor=1.0)}
    yield made.job(), []
    yield made.job(made.eye(axis=200.0)), []
    yield made.job(package=SMALL_BLANK), [made.job(package=SMALL_BLANK), small]
    yield made.job(package=made.package(ranges=[made.part(diameter=25.0)])), [small]
    yield made.job(NEAR, package=tall), []
    yield made.job(NEAR, package=tall, has_left=False), []
    yield made.job(NEAR, package=tall, has_right=False), []
    yield made.job(NEAR, package=made.progressive(min_height=28.01)), []
    yield made.job(NEAR, package=made.progressive(min_height=26.0, min_above=15.0)), []
    yield made.job(NEAR, package=made.progressive(min_height=40.0, min_above=30.0)), []
    yield made.job(package=made.progressive()), []
    yield made.job(frame=drilled, package=made.package(drillable=False)), []
    yield made.job(frame=made.frame(curve=0.5), package=made.package(base_from=5.0, base_to=5.0)), []
    yield made.job(**far) | {"right": made.eye(-8.0), "left": made.eye(6.0)}, []
    yield made.job(options=made.options(tint_depth=80.0), package=made.package(tint_depth=50.0)), []
    yield made.job(options=made.options(tint_depth=20.5), package=made.package(tint_depth=0.0)), []
    yield made.job(options=made.options(tint_depth=20.0, driving=True), package=dark), []
    yield made.job(options=made.options(tint_depth=95.0, night_driving=True, tint_gradient=True)), []
    yield made.job(options=made.options(mirror=True, blue_filter=True, tint_depth=50.0)), []
    low = made.limits(gradient_height=41.0)
    yield made.job(options=made.options(tint_depth=50.0, tint_gradient=True), limits=low), []
    yield made.job(NEAR, package=made.progressive()) | {"left": made.eye(-4.0, add=2.0)}, []


def calls():
    """[module, function, arguments]."""
    found = [["remedies", "remedies", [job, sizes, MOUNTINGS, False]] for job, sizes in asked_for()]
    return [*found, ["remedies", "best_of", [["no", "caution", "fits"], [1, 2, 3]]]]
