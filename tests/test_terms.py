"""Changed lines and shared parcels, reckoned by hand beside each test."""

import pytest

from quoting.kernel import quote
from quoting.terms import Change, NoSuchLineError, goods, pricing
from tests.kernel.jobs import discount, eye, job, money, region, surcharge

# Frame 120.00, lenses 90.00 each, ten percent off the lenses, 7.00 for shipping, free from 500.00; tax 10 percent
MONEY = {
    "frame_cents": 12000,
    "surcharges": [{**surcharge(cents=1000), "id": "prism"}],
    "discounts": [discount(on="lenses", basis_points=1000)],
    "region": region(shipping_cents=700, free_from_cents=50000, tax_frame=1000, tax_lenses=1000, tax_shipping=1000),
}


def a_job(**changes):
    return job(eye(prism_in=1.0), money=money(**(MONEY | changes)))


def priced(price, one=None):
    one = one or a_job()
    fit = quote.fit(one)
    return price(one, fit["right"], fit["left"])


def amounts(bill):
    return [(line["code"], line["cents"]) for line in bill["lines"]]


def test_without_changes_it_is_the_kernel_s_bill():
    one = a_job()
    assert priced(pricing()) == quote.answer(one)["bill"]


def test_a_changed_line_changes_discount_and_tax_with_it():
    bill = priced(pricing([Change("lenses", 10000, "remade")]))
    lenses = 10000 + 2 * 1000
    off = lenses // 10
    assert amounts(bill) == [
        ("frame", 12000),
        ("lenses", 10000),
        ("surcharge", 2000),
        ("discount", -off),
        ("shipping", 700),
        ("tax", 1200),
        ("tax", (lenses - off) // 10),
        ("tax", 70),
    ]
    assert bill["total_cents"] == sum(cents for _, cents in amounts(bill))


def test_frame_surcharge_and_shipping_may_be_changed_too():
    changes = [Change("frame", 9900, "a"), Change("prism", 0, "b"), Change("shipping", 0, "c")]
    found = dict(amounts(priced(pricing(changes))))
    assert (found["frame"], found["surcharge"], found["shipping"]) == (9900, 0, 0)


def test_shipping_that_was_changed_stays_though_the_parcel_would_go_free():
    one = a_job(frame_cents=90000)
    assert dict(amounts(priced(pricing(), one)))["shipping"] == 0
    assert dict(amounts(priced(pricing([Change("shipping", 900, "abroad")]), one)))["shipping"] == 900


def test_what_is_not_in_the_bill_is_told_with_what_is():
    with pytest.raises(NoSuchLineError, match="no line 'lens R' in this bill: there is frame, lenses, prism, shipping"):
        priced(pricing([Change("lens R", 1, "a")]))


def test_the_second_pair_pays_no_shipping_and_counts_for_the_first():
    """The goods of one pair are 120 + 200 - 20 = 300.00; two of them are above 500.00, so the parcel goes free."""
    second = priced(pricing(goes_with=True))
    assert goods(second) == 30000
    assert dict(amounts(second))["shipping"] == 0
    alone = priced(pricing())
    assert dict(amounts(alone))["shipping"] == 700
    together = priced(pricing(others=[second]))
    assert dict(amounts(together))["shipping"] == 0
    assert together["total_cents"] == alone["total_cents"] - 770


@pytest.mark.parametrize(("free_from", "shipping"), [(60000, 0), (60001, 700), (0, 700), (10000, 0)])
def test_free_shipping_is_decided_at_the_cent(free_from, shipping):
    one = a_job(region={**MONEY["region"], "free_from_cents": free_from})
    second = priced(pricing(goes_with=True), one)
    assert dict(amounts(priced(pricing(others=[second]), one)))["shipping"] == shipping


def test_what_has_no_price_gets_none_by_a_change():
    one = a_job(frame_cents=-1)
    assert priced(pricing([Change("frame", 100, "a")]), one)["priced"] is False


def test_the_kernel_s_job_is_left_as_it_was():
    one, same = a_job(), a_job()
    priced(pricing([Change("frame", 1, "a"), Change("shipping", 1, "b")]), one)
    assert one == same
