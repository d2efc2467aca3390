"""How long one lens takes, looked at, laid out, ground and judged, here and in another checkout of this project.

    python -m tests.bench.lens [CHECKOUT]

The same lenses on both sides, turn about, each side in a process of its own; processor time, the best of all rounds.
"""

import random
import subprocess
import sys
import time
from pathlib import Path

from quoting.kernel import outline, quote
from tests.kernel.jobs import FAMILIES, eye, frame, job, measures

LENSES = 120
ROUNDS = 8
TURNS = 3
KINDS = {"sphere": (0.0, 0.0), "toric": (-1.5, 0.0), "with prism": (-1.5, 2.0)}
HERE = Path(__file__).parent.parent.parent


def asked(cylinder, prism):
    """So many jobs for one lens: boxes, families and powers vary as those of a shop do."""
    dice = random.Random("lenses")
    found = []
    for _ in range(LENSES):
        a, b, family = dice.uniform(44, 58), dice.uniform(30, 46), dice.choice(FAMILIES)
        low, high = outline.effective_diameter_limits(a, b, family)
        one = frame(a, b, 18.0, low + (high - low) * 0.3, family)
        power = eye(dice.randrange(-24, 20) / 4, cylinder, float(dice.randrange(1, 181)), prism_in=prism)
        measured = measures(pd_right=dice.uniform(29, 34), height_right=b / 2 + 4)
        found.append(job(frame=one, measures=measured, has_left=False) | {"right": power})
    return found


def measured():
    """Milliseconds a lens of each kind."""
    best = []
    for cylinder, prism in KINDS.values():
        jobs = asked(cylinder, prism)
        rounds = []
        for _ in range(ROUNDS):
            before = time.process_time()
            for one in jobs:
                quote.fit(one)
            rounds.append((time.process_time() - before) / LENSES * 1000)
        best.append(min(rounds))
    return best


def in_checkout(folder):
    """The same in a process that imports the engine from this folder, and the lenses from here."""
    code = f"import sys; sys.path.insert(0, {str(folder)!r}); import quoting; sys.path.insert(0, {str(HERE)!r}); "
    code += "from tests.bench import lens as bench; "
    code += "print(*bench.measured())"
    done = subprocess.run([sys.executable, "-c", code], cwd="/", check=True, capture_output=True, text=True)
    return [float(part) for part in done.stdout.split()]


def main():
    """One line for each kind of lens."""
    folders = [HERE, *(Path(given).resolve() for given in sys.argv[1:])]
    best = {folder: [float("inf")] * len(KINDS) for folder in folders}
    for _ in range(TURNS):
        for folder in folders:
            best[folder] = [min(pair) for pair in zip(best[folder], in_checkout(folder), strict=True)]
    for place, kind in enumerate(KINDS):
        print(f"{kind:12}", *(f"{best[folder][place]:7.3f} ms in {folder}" for folder in folders), sep="  ")


if __name__ == "__main__":
    main()
