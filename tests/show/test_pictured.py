"""The drawing of a frame in a quote: by its trace, where the shop has one of that very size."""

from dataclasses import replace

from quoting.catalog.read_traces import outline_of_trace
from quoting.offers import Choice
from quoting.show.front import front_svg
from quoting.show.issued import frame_record
from quoting.show.pictured import front_of, picture_of
from quoting.tables import true_ed
from tests.lab.test_jobs import traced
from tests.quoted.quotes import offers


def traced_frame():
    """A frame of the demo shop whose first size was traced, as a choice."""
    catalog = offers().catalog
    frame = catalog.frames["cottering"]
    size = replace(frame.sizes[0], a=52.0, b=36.0, outline=outline_of_trace(traced()))
    frame = replace(frame, sizes=(size, *frame.sizes[1:]))
    return Choice(frame, size, frame.colorways[0], catalog.packages["bench-159-ar"])


def test_a_traced_frame_is_drawn_in_a_quote_as_on_its_page():
    choice, shop = traced_frame(), offers().catalog.shop
    record, known = frame_record(choice), {choice.frame.id: choice.frame}
    rim = shop.mountings[choice.frame.mounting].rim
    drawn = front_of(record, shop, known)
    label = drawn.partition('aria-label="')[2].partition('"')[0].replace("&amp;", "&")
    assert drawn == front_svg(choice.frame, choice.size, choice.colorway, rim, label, dimensions=False)
    assert drawn != front_of(record, shop)
    assert picture_of(record, shop, known) != picture_of(record, shop)


def test_a_size_that_was_not_traced_is_drawn_by_its_box():
    choice, shop = traced_frame(), offers().catalog.shop
    record, known = frame_record(choice), {choice.frame.id: choice.frame}
    for other in ({**record, "b": record["b"] + 50}, {**record, "id": "gone"}):
        assert front_of(other, shop, known) == front_of(other, shop)


def test_a_quote_has_the_diameter_of_the_trace():
    """The one that was reckoned with, as the page has it in an estimate."""
    choice = traced_frame()
    assert frame_record(choice)["ed"] == round(true_ed(choice.size) * 100)
    assert frame_record(choice)["ed"] != round(choice.size.ed * 100)
