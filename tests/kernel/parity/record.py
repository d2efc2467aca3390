"""Chunks of calls, and what CPython makes of them, as files in a folder: `0.calls.json`, `0.python.json`, ...

    python -m tests.kernel.parity.record FOLDER PART PARTS

works out every PARTS-th chunk, from PART on.  Chunk 0 holds the direct calls, then come jobs, then tints.
"""

import sys
from pathlib import Path

from tests.kernel.parity import calls, dyeing, examples, making, picked, sides, spelling

JOBS = 20_000
TINTS = 2_000
CHUNK = 500
FIRST_TINTS = 1 + JOBS // CHUNK
CHUNKS = range(FIRST_TINTS + TINTS // CHUNK)


def chunk(number):
    """The calls of a chunk."""
    if number == 0:
        drawn = calls.all_by_annotation()
        return drawn + examples.calls() + picked.calls() + [answering(job) for job in picked.jobs()]
    if number >= FIRST_TINTS:
        return [tinting(one) for one in dyeing.chunk(number, CHUNK)]
    return [answering(job) for job in making.chunk(number, CHUNK)]


def answering(job):
    """The call that a page makes."""
    return ["quote", "answer", [job]]


def tinting(given):
    """The call that a page makes of a tint."""
    return ["filters", "filters", given]


def main(folder, part, parts):
    """Write the chunks of one part."""
    kernel = calls.modules()
    for number in CHUNKS[part::parts]:
        asked = chunk(number)
        write(folder / f"{number}.calls.json", spelling.write(asked))
        write(folder / f"{number}.python.json", spelling.write([sides.in_python(call, kernel) for call in asked]))


def write(path, text):
    path.write_text(text, encoding="utf-8")


if __name__ == "__main__":
    main(Path(sys.argv[1]), int(sys.argv[2]), int(sys.argv[3]))
