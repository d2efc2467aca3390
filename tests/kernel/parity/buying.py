"""Seeded parts of a job that are not about its lenses: filters, wishes, and what it is priced by."""

from tests.kernel import jobs

MOUNTINGS = ("full-rim-plastic", "full-rim-metal", "semi-rimless", "drilled")
SURCHARGES = ("prism", "cylinder", "blank", "wrap", "mounting", "power", "tint", "mirror", "slab-off", "rush")


def filters(seeded):
    """What a package does to the light and what may be done to it."""
    light = seeded.choice(("clear", "clear", "clear", "photochromic", "polarized"))
    through = {"clear": (0.0, 98.5), "photochromic": (0.0, 88.0, 12.5), "polarized": (0.0, 15.0, 7.5)}[light]
    may = {name: seeded.random() < 0.6 for name in ("tint_over", "mirror", "back_ar", "blue_filter", "double_use")}
    dark = seeded.choice((0.0, 7.5, 18.0)) if light == "photochromic" else 0.0
    tint = seeded.choice((0.0, 50.0, 85.0, 90.0))
    return {"light": light, "transmittance": seeded.choice(through), "darkened": dark, "tint_depth": tint} | may


def options(seeded):
    """Mostly nothing, else some wishes."""
    if seeded.random() < 0.7:
        return jobs.options()
    wishes = {name: seeded.random() < 0.3 for name, usual in jobs.options().items() if isinstance(usual, bool)}
    return jobs.options(**wishes, tint_depth=seeded.choice((0.0, 15.0, 50.0, 85.0, 92.5)))


def money(seeded):
    """Surcharges, discounts, a region and tax, in or out."""
    extras = [
        jobs.surcharge(
            seeded.choice(SURCHARGES),
            seeded.randint(0, 9000),
            seeded.choice((0.0, 2.0, 8.0, 65.0)),
            seeded.choice(MOUNTINGS),
            seeded.random() < 0.5,
            f"extra-{n}",
        )
        for n in range(seeded.randint(0, 4))
    ]
    less = []
    for n in range(seeded.randint(0, 3)):
        by_share = seeded.random() < 0.5
        points, cents = (seeded.randint(1, 10000), 0) if by_share else (0, seeded.randint(0, 60000))
        on = seeded.choice(("frame", "lenses", "goods"))
        less.append(jobs.discount(on, points, cents, seeded.random() < 0.5, f"less-{n}"))
    rates = {f"tax_{kind}": seeded.choice((0, 0, 625, 2100, 10000)) for kind in ("frame", "lenses", "shipping")}
    post = {"shipping_cents": seeded.choice((0, 650, 2500)), "free_from_cents": seeded.choice((0, 10000, 60000))}
    return jobs.money(
        frame_cents=seeded.randint(0, 60000),
        surcharges=extras,
        discounts=less,
        region=jobs.region(**rates, **post),
        tax_included=seeded.random() < 0.3,
    )
