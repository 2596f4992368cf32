"""The estimator on the sample's patterns, measured beside the open nesting library.

    python tests/sample/sample_lays.py --widths 90,140 --seconds 2 --alone 10

For the middle size of every pattern with outlines, at every width: the quick open lay (cold,
in a fresh process, and warm), the careful one, and the library alone on all cores with the
outlines as drawn. Ends with 1 if a careful lay is longer than the quick one.
"""

from __future__ import annotations

import argparse
import statistics
import sys
import time
from concurrent.futures import ProcessPoolExecutor
from multiprocessing import get_context
from typing import TYPE_CHECKING, NamedTuple

from stash.garment.make import Make
from stash.garment.pattern import Role
from stash.intake.stash_folder import read_stash_folder
from stash.lay.benchmark import lay_alone
from stash.lay.errors import LayError
from stash.lay.obstacles import strip_of
from stash.lay.open_lay import open_copies
from stash.lay.problem import LayKind, Problem
from stash.lay.solve import solve, solve_carefully
from stash.lay.table import Item
from stash.pairing.needs import Question, problem_of
from stash.paths import sample_dir
from stash.units.length import Length

if TYPE_CHECKING:
    from collections.abc import Iterator

SELVEDGES_MM = 20


class Row(NamedTuple):
    """One pattern at one width; lengths in mm, times in seconds."""

    name: str
    width: int
    pieces: int
    quick: float
    cold: float
    warm: float
    careful: float
    spent: float
    alone: float | None


def problems(widths: list[int]) -> Iterator[tuple[str, int, Problem]]:
    """Name, width in cm and problem: no nap, so that pieces may be turned."""
    for pattern in read_stash_folder(sample_dir()).patterns:
        size = pattern.sizes[len(pattern.sizes) // 2].label if pattern.sizes else ""
        view = pattern.views[0] if pattern.views else ""
        make = Make(name=pattern.name, pattern_id=0, view=view, size=size)
        if not pattern.pieces_for(view, size, Role.MAIN):
            continue
        for width in widths:
            usable = Length.from_mm(10 * width - SELVEDGES_MM)
            question = Question(make=make, pattern=pattern, role=Role.MAIN, width=usable, nap=False)
            yield pattern.name, width, problem_of(question)


def quick(problem: Problem) -> tuple[float, float, float]:
    """Length, and the seconds it takes the first time in a process and the second time."""
    start = time.perf_counter()
    need = solve(problem, kind=LayKind.OPEN).need
    middle = time.perf_counter()
    solve(problem, kind=LayKind.OPEN)
    return need, middle - start, time.perf_counter() - middle


def measured(name: str, width: int, problem: Problem, asked: argparse.Namespace) -> Row | None:
    """Everything about one pattern at one width; None where it cannot be laid at all."""
    try:
        with ProcessPoolExecutor(1, mp_context=get_context("spawn")) as fresh:
            need, cold, warm = fresh.submit(quick, problem).result()
    except LayError:
        return None
    start = time.perf_counter()
    careful = solve_carefully(problem, asked.seconds, kind=LayKind.OPEN, seed=asked.seed)
    spent = time.perf_counter() - start
    items = tuple(Item(forms) for forms in open_copies(problem))
    alone, _ = lay_alone(strip_of(problem), items, asked.alone, asked.seed)
    return Row(name, width, len(items), need, cold, warm, careful.need, spent, alone)


def line(row: Row) -> str:
    alone = "      -" if row.alone is None else f"{row.alone / 10:7.1f}"
    over = "" if row.alone is None else f"{100 * (row.careful / row.alone - 1):+6.2f} %"
    return (
        f"{row.name[:22]:<22} {row.width:>4} cm {row.pieces:>3} pieces"
        f"  quick {row.quick / 10:6.1f} cm {1000 * row.cold:5.0f} ms cold"
        f" {1000 * row.warm:5.0f} ms warm  careful {row.careful / 10:6.1f} cm {row.spent:4.1f} s"
        f"  library alone {alone} cm  careful over library {over}"
    )


def summary(what: str, ratios: list[float]) -> str:
    if not ratios:
        return f"{what}: nothing to compare"
    overs = [100 * (ratio - 1) for ratio in ratios]
    return (
        f"{what}: median {statistics.median(overs):+.2f} %, worst {max(overs):+.2f} %"
        f" of {len(overs)}"
    )


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0] if __doc__ else "")
    parser.add_argument("--widths", default="90,110,132,140,150", help="cm, with commas between")
    parser.add_argument("--seconds", type=float, default=2.0, help="for every careful lay")
    parser.add_argument("--alone", type=float, default=10.0, help="seconds of the library alone")
    parser.add_argument("--seed", type=int, default=1)
    asked = parser.parse_args()
    rows: list[Row] = []
    for name, width, problem in problems([int(width) for width in asked.widths.split(",")]):
        row = measured(name, width, problem, asked)
        if row is None:
            print(f"{name[:22]:<22} {width:>4} cm: too narrow")
            continue
        rows.append(row)
        print(line(row), flush=True)
    beside = [row for row in rows if row.alone is not None]
    print(summary("careful over library", [row.careful / (row.alone or 1) for row in beside]))
    print(summary("quick over library", [row.quick / (row.alone or 1) for row in beside]))
    print(summary("quick over careful", [row.quick / row.careful for row in rows]))
    print(
        f"quick: median {1000 * statistics.median(row.cold for row in rows):.0f} ms cold,"
        f" {1000 * statistics.median(row.warm for row in rows):.0f} ms warm"
    )
    return int(any(row.careful > row.quick + 1e-6 for row in rows))


if __name__ == "__main__":
    sys.exit(main())
