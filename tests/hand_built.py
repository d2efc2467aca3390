"""A small catalog made of the model's own parts, without any file: two frames, four packages, two regions."""

from dataclasses import replace
from datetime import date

from quoting.catalog.model import Colorway, Design, Frame, Material, Package, PowerRange, PriceBand, Size, Step
from quoting.catalog.shop import (
    Band,
    Catalog,
    Defaults,
    Discount,
    Limits,
    MountingLimits,
    PriceList,
    Region,
    Shop,
    Surcharge,
)
from quoting.findings import Mark
from quoting.prescription.model import Distances, EyeRx, Prescription

MARK = Mark("hand built", 1, 1)
DAY = date(2026, 3, 2)


def mounting(min_edge=1.0, edge_caution=6.0, edge_no=9.0):
    return MountingLimits(min_edge, edge_caution, edge_no, rim=2.0, mark=MARK)


SHOP = Shop(
    name="Hazelbank Spectacles",
    tagline="",
    address=("1 Quay",),
    email="desk@example.org",
    phone="",
    currency="EUR",
    locale="en_US",
    quote_days=30,
    prescription_months=24,
    url="",
    mountings={
        "full-rim-plastic": mounting(),
        "full-rim-metal": mounting(1.0, 4.0, 6.0),
        "semi-rimless": mounting(2.0),
        "drilled": mounting(2.0),
    },
    limits=Limits(2.0, 2.0, 15.0, 7.5, 12.0, 8.0),
    defaults=Defaults(pd=63.0, child_pd=54.0, pupil_above_center=4.0, vertex=13.0, working_distance=400.0),
    bands=(Band(-8.0, -6.25, MARK), Band(-6.0, -4.25, MARK), Band(-4.0, -0.25, MARK), Band(0.0, 4.0, MARK)),
    cautions=(),
    mark=MARK,
)

RESIN = Material("resin-160", "1.60 resin", 1.6, 41.0, 1.3, 1.5, True, True, 85, MARK)
HARD = Material("hard-150", "hard resin", 1.498, 58.0, 1.32, 2.0, False, False, 85, MARK)


def design(name, kind="single-vision", min_height=0.0, min_above=0.0, boost=0.0):
    return Design(name, name, kind, min_height, min_above, boost, 0.0, 0.0, 0.5, 9.0, False, False, "", MARK)


PLAIN = design("plain")
FLOW = design("flow", "progressive", 18.0, 10.0)


def package(name, one, material, cents, ranges, centers=(), finished=False):
    return Package(
        id=name,
        name=name,
        maker="Lowfell",
        design=one,
        material=material,
        light="clear",
        coating="hard coat",
        finished=finished,
        ranges=ranges,
        curves=(),
        centers=centers,
        min_center=material.min_center,
        prism=4.0,
        prices=(
            PriceBand(-6.0, 4.0, cents, MARK),
            PriceBand(-8.0, -6.25, cents + 2000, MARK),
        ),
        about="",
        mark=MARK,
    )


def power_range(low=-8.0, high=4.0, cylinder=4.0, add_from=0.0, add_to=0.0, diameter=75.0):
    return PowerRange(low, high, cylinder, add_from, add_to, diameter, MARK)


PACKAGES = {
    one.id: one
    for one in (
        package("plain-160", PLAIN, RESIN, 9000, (power_range(),)),
        package("plain-150", PLAIN, HARD, 4000, (power_range(-4.0),)),
        package(
            "drawer-150",
            PLAIN,
            HARD,
            2500,
            (power_range(-4.0, 2.0, 2.0, diameter=65.0),),
            (Step(-4.0, 2.0, 2.2, MARK),),
            True,
        ),
        package("flow-160", FLOW, RESIN, 20000, (power_range(add_from=0.75, add_to=3.0),)),
    )
}

FRAMES = {
    one.id: one
    for one in (
        Frame(
            id="brackwater",
            name="Brackwater",
            maker="Ouselgate",
            family="panto",
            mounting="full-rim-plastic",
            material="acetate",
            curve=5.0,
            wrap=5.0,
            tilt=8.0,
            sizes=(Size(48.0, 40.0, 20.0, 51.0, 145.0, 22.0, MARK), Size(52.0, 42.0, 18.0, 55.0, 145.0, 24.0, MARK)),
            colorways=(Colorway("moss", "moss", "optical", 12000, "#334433", "#334433", "in-stock", MARK),),
            about="",
            mark=MARK,
        ),
        Frame(
            id="thornlow",
            name="Thornlow",
            maker="Ouselgate",
            family="rectangle",
            mounting="drilled",
            material="titanium",
            curve=5.0,
            wrap=5.0,
            tilt=8.0,
            sizes=(Size(54.0, 32.0, 17.0, 57.0, 145.0, 0.0, MARK),),
            colorways=(Colorway("slate", "slate", "sun-only", 21000, "#333333", "#333333", "to-order", MARK),),
            about="",
            mark=MARK,
        ),
    )
}


def discount(name="spring", starts=None, ends=None, asked=False, basis_points=1000):
    return Discount(name, name, "goods", basis_points, 0, starts, ends, asked, True, MARK)


PRICES = PriceList(
    version="2026-02",
    effective=date(2026, 2, 1),
    tax_included=False,
    surcharges=(Surcharge("prism", "Prescribed prism", "prism", 0.0, "", "lens", 1500, MARK),),
    discounts=(
        discount("spring", date(2026, 3, 1), date(2026, 3, 31)),
        discount("club", asked=True, basis_points=500),
    ),
    regions=(
        Region("home", "Home", 500, 0, 1000, 0, 1000, MARK),
        Region("abroad", "Abroad", 2500, 60000, 0, 0, 0, MARK),
    ),
    mark=MARK,
)

CATALOG = Catalog(
    shop=SHOP,
    materials={RESIN.id: RESIN, HARD.id: HARD},
    designs={PLAIN.id: PLAIN, FLOW.id: FLOW},
    packages=PACKAGES,
    frames=FRAMES,
    price_list=PRICES,
)


def without_discounts():
    """The same catalog where nothing is ever reduced."""
    return replace(CATALOG, price_list=replace(PRICES, discounts=()))


def both(sphere=-2.0, cylinder=0.0, axis=180, add=0.0, pd=None, **more):
    """One prescription for both eyes."""
    eye = EyeRx(sphere, cylinder, axis, add, **more)
    return Prescription(eye, eye, pd or Distances())
