"""Options that a package lists in vain: exactly those that no choice of the engine's options ever allows."""

from dataclasses import replace
from itertools import product

import pytest

from quoting.catalog.load import load
from quoting.catalog.model import Treatments
from quoting.catalog.sense_options import sense_of_options, takes_mirror, takes_tint
from quoting.kernel.treatments import double_use_rule, mirror_rule, no_options, tint_rule
from quoting.tables import package_table
from tests.errors.gallery import WHOLE
from tests.kernel.jobs import job

RULES = (tint_rule, mirror_rule, double_use_rule)
FLAGS = ("tint_over", "mirror", "back_ar", "blue_filter", "double_use")
LIGHTS = ("clear", "photochromic", "polarized")


@pytest.fixture(scope="module")
def catalog():
    return load(WHOLE)[0]


def allowed(package, **wanted):
    """Whether the engine's rules let these options pass, with any others beside them."""
    others = product((0.0, 10.0), (False, True), (False, True))
    for depth, mirror, blue in others:
        options = {**no_options(), "tint_depth": depth, "mirror": mirror, "blue_filter": blue, **wanted}
        asked = {**job(), "package": package_table(package), "options": options}
        reasons = []
        for rule in RULES:
            rule(asked, reasons)
        if not any(one["verdict"] == "no" for one in reasons):
            return True
    return False


@pytest.mark.parametrize("light", LIGHTS)
@pytest.mark.parametrize("depth", [0, 85])
def test_what_is_told_is_what_the_engine_never_allows(catalog, light, depth):
    plain = catalog.packages["plain-150"]
    material = replace(plain.material, tint_depth=depth)
    for flags in product((False, True), repeat=len(FLAGS)):
        treatments = Treatments(**dict(zip(FLAGS, flags, strict=True)))
        package = replace(plain, light=light, material=material, treatments=treatments)
        told = {
            one.message.partition("(`")[2].partition("`")[0] for one in sense_of_options(with_package(catalog, package))
        }
        mirror, blue = allowed(package, mirror=True), allowed(package, blue_filter=True)
        assert takes_mirror(package) == mirror, treatments
        assert takes_tint(package) == allowed(package, tint_depth=10.0), treatments
        assert ("mirror" in told) == (treatments.mirror and not mirror), treatments
        assert ("blue_filter" in told) == (treatments.blue_filter and not blue), treatments
        assert ("tint_over" in told) == (treatments.tint_over and not depth), treatments


def with_package(catalog, package):
    return replace(catalog, packages={package.id: package})


def test_it_is_said_what_stands_against_it(catalog):
    plain = catalog.packages["plain-150"]
    package = replace(plain, light="polarized", treatments=Treatments(mirror=True))
    (found,) = sense_of_options(with_package(catalog, package))
    assert (found.code, found.severity, found.mark) == ("never-allowed", "warning", plain.mark)
    assert "`back_ar`" in found.message
    assert "it is polarized already" in found.message
