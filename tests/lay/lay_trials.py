"""Trust by numbers: many random problems laid out, every lay judged twice.

    python tests/lay/lay_trials.py --problems 10000 --seed 1

Every problem is laid in one kind and open, checked by the estimator's own checker and by the
raster second opinion, written out as JSON, read back and checked again. Problem n of a seed
is always the same one, so `--first n --problems 1` shows it again. Ends with 1 if anything
was illegal.
"""

from __future__ import annotations

import argparse
import sys
import time
from collections import Counter
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass, field
from multiprocessing import get_context
from random import Random
from typing import TYPE_CHECKING

from lay_random import KINDS, random_problem
from lay_raster import raster_faults
from lay_refusals import unjustified

from stash.lay.check import check
from stash.lay.errors import LayError
from stash.lay.exchange import lay_from_json, lay_to_json
from stash.lay.problem import LayKind, Problem
from stash.lay.solve import solve

if TYPE_CHECKING:
    from stash.lay.result import Lay

PROCESSES = 2
PER_TASK = 20
TRIES = 2
HAIR_MM = 1e-6
BAD = (
    "illegal by checker",
    "illegal by raster",
    "open longer than another kind",
    "shorter than its bound",
    "changed by JSON",
    "refused without cause",
    "crashed",
)


@dataclass
class Tally:
    """What was counted, and the first words of everything that was wrong."""

    counts: Counter[str] = field(default_factory=Counter)
    kinds: Counter[str] = field(default_factory=Counter)
    asking: Counter[str] = field(default_factory=Counter)
    refused: Counter[str] = field(default_factory=Counter)
    words: list[str] = field(default_factory=list)

    def add(self, other: Tally) -> None:
        self.counts += other.counts
        self.kinds += other.kinds
        self.asking += other.asking
        self.refused += other.refused
        self.words += other.words

    def wrong(self, what: str, number: int, why: str) -> None:
        self.counts[what] += 1
        self.words.append(f"problem {number}: {what}: {why}")

    @property
    def faults(self) -> int:
        return sum(self.counts[what] for what in BAD)


def trial(seed: int, number: int, tries: int, only: LayKind | str | None) -> Tally:
    """One problem of a seed, laid and judged."""
    chance = Random(f"{seed}:{number}")
    problem = random_problem(chance)
    kind = KINDS[number % len(KINDS)]
    if only is not None:
        kind = None if only == "best" else LayKind(only)
    tally = Tally()
    tally.counts["problems"] = 1
    asked = dict.fromkeys((kind, LayKind.OPEN))  # once where open is asked for anyway
    lays = {one: _laid(problem, one, tries, number, tally) for one in asked}
    other, opened = lays[kind], lays[LayKind.OPEN]
    if other and opened and opened.need > other.need + HAIR_MM:
        tally.wrong(
            "open longer than another kind",
            number,
            f"{opened.need:.4f} against {other.need:.4f} {other.kind}",
        )
    if other and not opened:
        tally.wrong("refused without cause", number, f"open, but there is a lay {other.kind}")
    return tally


def _laid(
    problem: Problem, kind: LayKind | None, tries: int, number: int, tally: Tally
) -> Lay | None:
    name = kind or "best"
    try:
        lay = solve(problem, kind=kind, tries=tries)
    except LayError as error:
        if "not legal" in error.message:
            tally.wrong("illegal by checker", number, f"{name}: {error.message}")
            return None
        tally.refused[f"{name}: {type(error).__name__}"] += 1
        if why := unjustified(problem, kind, error):
            tally.wrong("refused without cause", number, f"{name}: {why}")
        return None
    except Exception as error:
        tally.wrong("crashed", number, f"{name}: {type(error).__name__}: {error}")
        return None
    tally.kinds[f"{name}: {lay.kind}" if kind is None else name] += 1
    tally.asking.update(asks(problem))
    judge(problem, lay, number, tally)
    return lay


def asks(problem: Problem) -> list[str]:
    """What a problem asks for beyond pieces on a cloth."""
    found = {
        "nap": problem.nap,
        "round flaws": problem.spots,
        "flaws with corners": problem.patches,
        "a remnant": problem.outline,
        "a gap": problem.gap,
        "a print to match": problem.matches,
        "leeway off grain": any(shape.tolerance for shape in problem.shapes),
        "bias": any(45 in shape.turns for shape in problem.shapes),
        "a fold": any(shape.on_fold for shape in problem.shapes),
    }
    return [name for name, asked in found.items() if asked]


def judge(problem: Problem, lay: Lay, number: int, tally: Tally) -> None:
    """Count everything that is wrong with one lay."""
    back = lay_from_json(lay_to_json(lay))
    if back != lay:
        tally.wrong("changed by JSON", number, f"{lay.kind}")
    found, seen = check(problem, back), raster_faults(problem, back)
    if found:
        tally.wrong("illegal by checker", number, f"{lay.kind}: {found[0]}")
    if seen:
        tally.wrong("illegal by raster", number, f"{lay.kind}: {seen[0]}")
    if seen and not found:
        tally.counts["disagreements"] += 1
    if lay.need < lay.bound.length - HAIR_MM:
        why = f"{lay.kind}: {lay.need:.4f} below {lay.bound.length:.4f}"
        tally.wrong("shorter than its bound", number, why)


def run(seed: int, numbers: range, tries: int, only: str | None) -> Tally:
    """The trials of some numbers, one after another."""
    tally = Tally()
    for number in numbers:
        tally.add(trial(seed, number, tries, only))
    return tally


def report(tally: Tally, seconds: float, tries: int) -> str:
    """The figures, a line each."""
    lines = [f"problems: {tally.counts['problems']}, tries for each lay: {tries}"]
    lines += [f"lays {name}: {count}" for name, count in sorted(tally.kinds.items())]
    lines.append(f"lays in all: {sum(tally.kinds.values())}")
    lines += [f"lays with {name}: {count}" for name, count in sorted(tally.asking.items())]
    lines += [f"refused {name}: {count}" for name, count in sorted(tally.refused.items())]
    lines += [f"{what}: {tally.counts[what]}" for what in (*BAD, "disagreements")]
    lines.append(f"seconds: {seconds:.0f}")
    return "\n".join(lines)


def main() -> int:
    words = argparse.ArgumentParser(description=__doc__.splitlines()[0] if __doc__ else "")
    words.add_argument("--problems", type=int, default=10_000)
    words.add_argument("--first", type=int, default=0, help="number of the first problem")
    words.add_argument("--seed", type=int, default=1)
    words.add_argument("--tries", type=int, default=TRIES, help="orders tried for each lay")
    words.add_argument("--kind", choices=["best", *LayKind], help="every problem in this kind")
    asked = words.parse_args()
    begun = time.monotonic()
    every = range(asked.first, asked.first + asked.problems)
    tasks = [every[i : i + PER_TASK] for i in range(0, len(every), PER_TASK)]
    tally = Tally()
    with ProcessPoolExecutor(PROCESSES, mp_context=get_context("spawn")) as pool:
        waiting = [pool.submit(run, asked.seed, t, asked.tries, asked.kind) for t in tasks]
        for done, task in enumerate(waiting, start=1):
            part = task.result()
            for line in part.words:
                print(line, flush=True)
            tally.add(part)
            if done % 25 == 0:
                spent = time.monotonic() - begun
                print(f"{tally.counts['problems']} problems, {spent:.0f} s", file=sys.stderr)
    print(report(tally, time.monotonic() - begun, asked.tries))
    return 1 if tally.faults else 0


if __name__ == "__main__":
    sys.exit(main())
