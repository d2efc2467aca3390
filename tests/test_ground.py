"""Lenses that are ground once for many answers give the answers of the kernel, to the last bit."""

import random
from copy import deepcopy
from functools import partial

from quoting import ground
from quoting.ground import Ground
from quoting.kernel import quote
from tests.kernel.parity import making


def boards(count):
    """Drawn jobs, three of four with the same lens for both eyes; each again with one thing of its package changed."""
    for n in range(count):
        seeded = random.Random(f"ground {n}")
        one = making.job(seeded)
        if n % 4:
            measures = one["measures"]
            one |= {"has_right": True, "has_left": True, "left": {**one["right"], "axis": 180 - one["right"]["axis"]}}
            one["measures"] = {**measures, "pd_left": measures["pd_right"], "height_left": measures["height_right"]}
        yield one
        thin = {"index": one["package"]["index"] + 0.05}
        heavy = {"density": one["package"]["density"] * 1.1}
        others = ({"drillable": False}, thin, heavy, {"conic": -0.5}, {"min_center": 2.3}, {"kind": "single-vision"})
        charts = ({"curves": []}, {"centers": [{"low": -12.0, "high": 6.0, "value": 2.7}]}, {"base_to": 4.0})
        more = ({"finished": not one["package"]["finished"]}, {"density": -1.0})
        for other in (*others, *charts, *more):
            yield {**one, "package": {**one["package"], **other}}


def named(one):
    """Names for the frame, and for package and limits, as `offers` gives them."""
    return repr(one["frame"]), repr((one["limits"], {**one["package"], "prices": []}))


def test_the_answers_are_those_of_the_kernel(monkeypatch):
    made, whole, known = [], ground.ground, Ground()
    monkeypatch.setattr(ground, "ground", lambda *job: made.append(1) or whole(*job))
    answers = [(known.fit(deepcopy(one), *named(one)), quote.fit(deepcopy(one))) for one in boards(150)]
    assert [one for one, _ in answers] == [other for _, other in answers]
    shared = [one for one, _ in answers if one["right"] == one["left"] and one["right"]["center"]]
    assert 100 < len(made) < len(shared) * 0.8
    faults = {one["right"]["fault"] for one, _ in answers}
    assert faults >= {"", "not-made", "cannot-be-ground", "needs-add", "impossible"}


def test_an_answer_that_is_changed_changes_no_other():
    one = next(one for one in boards(20) if quote.fit(one)["right"]["center"] and quote.same_lens(one, *sides(one)))
    ask = partial(Ground().fit, one, *named(one))
    first = ask()
    first["right"]["center"] = -5.0
    first["reasons"].append("x")
    assert ask() == quote.fit(one)


def sides(one):
    """Both eyes in their nasal frames."""
    return quote.nasal(one["right"], False), quote.nasal(one["left"], True)
