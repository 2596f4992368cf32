"""How far estimates from charts are off: `python tests/pairing/estimate_trials.py`.

First part: patterns whose pieces are known are laid out at charted widths, the lengths rounded
up to 10 cm and put into a chart, and the pieces hidden. What the program then says at widths in
between is set against a lay of the pieces. Second part: blocks of a published size against the
published amounts of nine garments.
"""

from __future__ import annotations

import argparse
import statistics
import sys
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass, replace
from multiprocessing import get_context
from typing import TYPE_CHECKING

from chart_cells import CONVENTIONS, GARMENTS, lines, reproduced, wanted
from other_drafts import other_trousers
from pairing_kit import Book

from stash.garment.make import Make
from stash.garment.pattern import ChartRow, Kind, Role
from stash.intake.stash_folder import read_stash_folder
from stash.lay.errors import LayError
from stash.lay.key import problem_key
from stash.lay.solve import solve
from stash.pairing.judgement import Need, Sureness
from stash.pairing.needs import Needs, Question, WantedLay, missing_problems
from stash.paths import sample_dir
from stash.units.length import Length

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from stash.garment.pattern import Pattern
    from stash.lay.problem import LayKind, Problem
    from stash.lay.result import Lay

SELVEDGES = 20
CUT = Length.from_mm(100)
"""Charts are rounded up to this."""


@dataclass(frozen=True)
class Case:
    """One pattern in one size and view."""

    pattern: Pattern
    view: str
    size: str

    @property
    def name(self) -> str:
        return f"{self.pattern.name[:32]} {self.view}{self.size}"

    def question(self, width_cm: int, pattern: Pattern | None = None) -> Question:
        make = Make(name="any", pattern_id=0, view=self.view, size=self.size)
        return Question(
            make=make,
            pattern=pattern or self.pattern,
            role=Role.MAIN,
            width=Length.from_mm(10 * width_cm - SELVEDGES),
            nap=True,
            label=Length.from_mm(10 * width_cm),
        )


def sample_cases() -> Iterator[Case]:
    """Every pattern of the sample that has pieces, in every size and view."""
    for pattern in read_stash_folder(sample_dir()).patterns:
        for view in pattern.views or ("",):
            for size in pattern.sizes:
                if pattern.pieces_for(view, size.label, Role.MAIN) and pattern.kind is not Kind.BAG:
                    yield Case(pattern, view, size.label)


def other_cases() -> Iterator[Case]:
    """Trousers drafted by other rules."""
    for pattern in other_trousers():
        yield Case(pattern, "", pattern.sizes[0].label)


def work_out(questions: Sequence[Question], book: Book) -> None:
    """Every lay these questions want."""
    tried: set[str] = set()
    while more := [m for m in missing_problems(questions, book) if m.key not in tried]:
        tried |= {one.key for one in more}
        lay_all(more, book)


def lay_all(lays: Sequence[WantedLay], book: Book) -> None:
    """Work lays out on two processors and keep them."""
    with ProcessPoolExecutor(2, mp_context=get_context("spawn")) as pool:
        for one, lay in zip(lays, pool.map(_lay, lays), strict=True):
            if lay is not None:
                book.put(one.key, lay)


def _lay(one: WantedLay) -> Lay | None:
    try:
        return solve(one.problem, kind=one.kind)
    except LayError:
        return None


def cells(book: Book) -> Iterator[str]:
    """Published amounts set against blocks."""
    asked: list[tuple[Problem, LayKind | None]] = [(p, None) for g in GARMENTS for p in wanted(g)]
    asked += [
        (read.problem(garment, inches), read.kind)
        for read in CONVENTIONS
        for garment in GARMENTS
        for inches in garment.amounts
    ]
    lays = {problem_key(p, kind, 1): (p, kind) for p, kind in asked}
    lay_all([WantedLay(key, problem, kind) for key, (problem, kind) in lays.items()], book)

    def laid(problem: Problem, kind: LayKind | None) -> float | None:
        lay = book.get(problem_key(problem, kind, 1))
        return None if lay is None else lay.need

    yield from lines([reproduced(garment, laid) for garment in GARMENTS])
    for read in CONVENTIONS:
        yield from read.lines(laid)


def charted(case: Case, widths: Sequence[int], needs: Needs) -> Pattern | None:
    """The pattern with a chart in place of its pieces; None where they do not go."""
    rows = []
    for width in widths:
        need = needs.answer(case.question(width)).length
        if need is None:
            return None
        label = Length.from_mm(10 * width)
        amount = need.ceil_to(CUT)
        rows.append(ChartRow(size=case.size, width=label, amount=amount, with_nap=True))
    return replace(case.pattern, pieces=(), charts=tuple(rows))


@dataclass(frozen=True)
class Outcome:
    """What was said of one pattern at one width, and what is true, mm."""

    case: Case
    width: int
    truth: float
    said: Need

    @property
    def error(self) -> float | None:
        return None if self.said.likely is None else self.said.likely.mm / self.truth - 1

    @property
    def inside(self) -> bool:
        low, high = self.said.low, self.said.high
        return low is not None and high is not None and low.mm <= self.truth <= high.mm

    @property
    def above(self) -> bool:
        """The truth is more than was said to be enough."""
        return self.said.high is not None and self.truth > self.said.high.mm


def trial(
    cases: Sequence[Case], at: Sequence[int], asked: Sequence[int], book: Book
) -> list[Outcome]:
    """Hide the pieces of every case, ask, and set the answers against lays of the pieces."""
    work_out([case.question(width) for case in cases for width in (*at, *asked)], book)
    needs = Needs(book)
    hidden = [(case, pattern) for case in cases if (pattern := charted(case, at, needs))]
    work_out([c.question(width, pattern) for c, pattern in hidden for width in asked], book)
    found = []
    for case, pattern in hidden:
        for width in asked:
            truth = needs.answer(case.question(width)).length
            said = needs.answer(case.question(width, pattern))
            if truth is not None and said.sureness is Sureness.ESTIMATED:
                found.append(Outcome(case, width, truth.mm, said))
    return found


def line(one: Outcome) -> str:
    low, likely, high = (
        x.mm / 10 if x else 0 for x in (one.said.low, one.said.likely, one.said.high)
    )
    return (
        f"{one.case.name:<38} {one.width} cm  real {one.truth / 10:5.1f}  said {likely:5.1f}"
        f" ({low:5.1f} to {high:5.1f}) {'inside' if one.inside else 'OUTSIDE'}"
    )


def summary(what: str, found: Sequence[Outcome]) -> str:
    errors = [abs(one.error) for one in found if one.error is not None]
    ranges = [
        (one.said.high.mm - one.said.low.mm) / one.truth
        for one in found
        if one.said.high and one.said.low
    ]
    inside = sum(one.inside for one in found)
    return (
        f"{what}: {inside} of {len(found)} inside the range ({inside / len(found):.0%}), "
        f"{sum(one.above for one in found)} above it; median error {statistics.median(errors):.1%};"
        f" half of the ranges are narrower than {statistics.median(ranges):.0%} of the need"
    )


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0] if __doc__ else "")
    parser.add_argument("--at", default="115,150", help="charted widths, cm")
    parser.add_argument("--asked", default="132,140", help="widths asked for, cm")
    parser.add_argument("--part", choices=["estimates", "cells", "both"], default="both")
    asked = parser.parse_args()
    at, widths = ([int(w) for w in text.split(",")] for text in (asked.at, asked.asked))
    book = Book()
    if asked.part != "cells":
        sample, others = list(sample_cases()), list(other_cases())
        legs = (Kind.TROUSERS_ELASTIC, Kind.TROUSERS_TAILORED)
        found = trial([*others, *sample], at, widths, book)
        for one in found:
            print(line(one))
        trousers = [one for one in found if one.case.pattern.kind in legs]
        rest = [one for one in found if one.case.pattern.kind not in legs]
        pairs = len({one.case.name for one in trousers})
        print(summary(f"trousers, {pairs} patterns and sizes", trousers))
        print(summary("everything else of the sample", rest))
    if asked.part != "estimates":
        for text in cells(book):
            print(text)
    return 0


if __name__ == "__main__":
    sys.exit(main())
