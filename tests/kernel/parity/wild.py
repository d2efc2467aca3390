"""Jobs with wild values in them: no numbers, infinities, the greatest and the least, nothing where a list was."""

import random

from hypothesis import strategies as st

from tests.kernel.parity import making

NUMBERS = (
    float("nan"), float("inf"), -float("inf"), 1e308, -1e308, 1.7976931348623157e308, 5e-324, -5e-324, 0.0, -0.0, 0, -1,
    1e-9, 0.1, 180.0, 360.5, 1000.0, 1e16, -1e16, 9007199254740991, 9007199254740992, -9007199254740993, 2**70,
)  # fmt: skip
TEXTS = ("", "no such word", "progressive", "drilled", "goods", "wrap", "constructor")


def places(value, path=()):
    """The way to everything in a job that can be something else."""
    if path:
        yield path
    if isinstance(value, dict):
        for key in value:
            yield from places(value[key], (*path, key))
    elif isinstance(value, list):
        for n in range(min(len(value), 3)):
            yield from places(value[n], (*path, n))


def at(value, path):
    """What stands there."""
    for step in path:
        value = value[step]
    return value


@st.composite
def jobs(draw):
    """A drawn job with one to four wild values; its kinds stay what they are."""
    job = making.job(random.Random(draw(st.integers(0, 10**6))))
    for _ in range(draw(st.integers(1, 4))):
        kept = [path for path in places(job) if not isinstance(at(job, path), dict)]
        path = draw(st.sampled_from(kept))
        holder, old = at(job, path[:-1]), at(job, path)
        if isinstance(old, bool):
            holder[path[-1]] = not old
        elif isinstance(old, str):
            holder[path[-1]] = draw(st.sampled_from(TEXTS))
        elif isinstance(old, list):
            holder[path[-1]] = draw(st.sampled_from(([], old[:1], old + old)))
        else:
            holder[path[-1]] = draw(st.one_of(st.sampled_from(NUMBERS), st.floats()))
    return job
