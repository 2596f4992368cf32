"""The one door to the estimator: a problem in, the shortest checked lay out."""

from __future__ import annotations

import gc
import time
from contextlib import contextmanager
from dataclasses import replace
from typing import TYPE_CHECKING

from stash.lay.again import look_again
from stash.lay.bounds import bound_of, least_length
from stash.lay.careful import Careful
from stash.lay.check import check
from stash.lay.crossways_lay import lay_crossways
from stash.lay.doubled import Folded, SingleEnd
from stash.lay.effort import Effort
from stash.lay.errors import LayError
from stash.lay.forms import FINE, sheet_width
from stash.lay.gate_lay import lay_gate
from stash.lay.key import QUICK_TRIES
from stash.lay.obstacles import strip_of
from stash.lay.open_lay import lay_open, open_copies, open_placements, row_of
from stash.lay.part_fold import lay_folded_anywhere
from stash.lay.problem import LayKind
from stash.lay.result import Bound, Lay
from stash.lay.table import Item
from stash.lay.trials import trials, without_idle_rules
from stash.lay.validate import validate

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from stash.lay.effort import Found
    from stash.lay.forms import Form
    from stash.lay.problem import Problem
    from stash.lay.result import Placement


DOUBLED: dict[LayKind | None, Callable[[Problem, Effort, SingleEnd], Folded]] = {
    LayKind.FOLDED: lay_folded_anywhere,
    LayKind.GATE: lay_gate,
    LayKind.CROSSWAYS: lay_crossways,
}
"""The lays of two layers, the plainest first."""


def solve(
    problem: Problem,
    *,
    kind: LayKind | None = None,
    seed: int = 1,
    tries: int = QUICK_TRIES,
) -> Lay:
    """The shortest legal lay found for the problem, checked.

    `kind` overrides the problem's own kind; None means the best of all kinds this cloth
    can be laid in. The same arguments always give the same lay (but for `seconds`).

    Raises:
        BadOutlineError: a piece that is no piece.
        TooNarrowError: a piece wider than the cloth (or than half of it, where it must lie
            doubled in a folded or gate lay).
        NoRoomError: the pieces do not fit on a remnant.
        LayError: anything else that makes a lay impossible.
    """
    start = time.perf_counter()
    validate(replace(problem, kind=kind or LayKind.OPEN))
    copies = open_copies(problem)  # first, so that a piece wider than the whole cloth is named
    bound = bound_of(copies, sheet_width(problem))
    least = least_length(bound)
    effort = Effort(tries=tries, seed=seed, enough=least, bound=least)
    with _without_collecting():
        lay = _measured(_shortest(problem, kind, effort), copies, bound, seed)
    return checked(problem, replace(lay, seconds=time.perf_counter() - start))


@contextmanager
def _without_collecting() -> Iterator[None]:
    """A search makes a great many small tuples and no cycles: looking for those is left for after.

    It was a tenth of the time of a lay in a new process.
    """
    was_on = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was_on:
            gc.enable()


def solve_carefully(
    problem: Problem,
    seconds: float,
    *,
    kind: LayKind | None = None,
    seed: int = 1,
    progress: Callable[[float, float], bool] | None = None,
) -> Lay:
    """The shortest legal lay found in about `seconds`, checked; never longer than `solve`'s.

    The seconds are those after the quick lay, with which it begins. An open lay is searched for
    in ways of its own; a lay of two layers as `solve` does, with one seed after another. Where
    any kind will do, a folded lay that is still as short is kept. How much is found depends on
    the clock, so two runs may differ. `progress` hears the share of the time spent and the best
    need so far in mm; when it answers False the search stops and the best so far is returned.

    Raises:
        LayError: as `solve`.
    """
    start = time.perf_counter()
    if kind in DOUBLED:
        again = look_again(
            lambda seed, tries: solve(problem, kind=kind, seed=seed, tries=tries),
            solve(problem, kind=kind, seed=seed),
            seconds,
            progress,
        )
        return replace(again, solver="careful", seconds=time.perf_counter() - start)

    validate(replace(problem, kind=LayKind.OPEN))
    plain = without_idle_rules(problem)
    quick = None
    if plain.repeat is not None:  # a longer search keeps the print where the quick one has it
        quick = solve(problem, kind=kind, seed=seed)
        plain = replace(plain, repeat=replace(plain.repeat, at=quick.repeat_at))
    copies = open_copies(plain)
    told = None if progress is None else lambda share, best: progress(share, best / FINE)
    items = tuple(Item(forms) for forms in copies)
    with Careful(strip_of(plain), items, seconds, seed) as careful:
        quick = quick or solve(problem, kind=kind, seed=seed)  # the library is at work already
        found = careful.search(
            told,
            enough=least_length(quick.bound),
            beat=round(quick.need * FINE),
            start=row_of(items, quick.placements),
        )
    if found.row is None or found.length / FINE >= quick.need:
        return replace(quick, solver="careful", seconds=time.perf_counter() - start)
    lay = unmeasured(plain, LayKind.OPEN, found.length, open_placements(plain, found.row))
    lay = _measured(lay, copies, quick.bound, seed)
    spent = time.perf_counter() - start
    return checked(plain, replace(lay, solver="careful", seconds=spent))


def checked(problem: Problem, lay: Lay) -> Lay:
    """The lay marked as checked.

    Raises:
        LayError: it breaks a rule. That is a fault of the program, never shown as a length.
    """
    faults = check(problem, lay)
    if faults:
        raise LayError(
            f"The lay that was found is not legal ({faults[0]}), so it is not shown.",
            "Try another kind of lay or another seed, and report this, please.",
        )
    return replace(lay, checked=True)


def _shortest(problem: Problem, kind: LayKind | None, effort: Effort) -> Lay:
    """The shortest lay of all trials of the problem; ends once nothing can be shorter."""
    best: Lay | None = None
    for trial in trials(problem):
        try:
            if kind in DOUBLED:
                lay = _as_folded(trial, _doubled(trial, kind, effort, None))
            else:
                lay = _best(trial, kind, effort)
        except LayError as error:
            failed = error
            continue
        if best is None or lay.need < best.need:
            best = lay
        if round(best.need * FINE) <= effort.enough:
            break
    if best is None:
        raise failed
    return best


def _best(problem: Problem, kind: LayKind | None, effort: Effort) -> Lay:
    """The shortest of all kinds, opened out if an open lay is wanted.

    So an open lay is never longer than any other. Once a length that no lay can beat is
    reached, nothing more is tried; nor is a kind proven to be no shorter. Of equal lengths
    the doubled lay wins where it may: it is half the cutting.
    """
    found: Found | None = None
    try:
        found = lay_open(problem, effort)
    except LayError as error:
        failed = error
    is_open = kind is LayKind.OPEN
    beat = None if found is None else found.length + (0 if is_open else 1)
    folded = None
    if found is None or not is_open or found.length > effort.enough:
        folded = _shortest_folded(problem, replace(effort, beat=beat))
    if folded is not None and (beat is None or folded.length < beat):
        if folded.folded_to and not is_open:
            return _as_folded(problem, folded)
        placements = tuple(replace(p, single=False) for p in folded.placements if not p.waste)
        return unmeasured(problem, LayKind.OPEN, folded.length, placements)
    if found is None:
        raise failed
    placements = open_placements(problem, found.row or ())
    return unmeasured(problem, LayKind.OPEN, found.length, placements)


def _shortest_folded(problem: Problem, effort: Effort) -> Folded | None:
    """The shortest lay of two layers; None where this cloth cannot be laid so, or none helps."""
    if problem.outline:
        return None
    best: Folded | None = None
    single_end = SingleEnd(problem, _whole(effort))
    for kind in DOUBLED:
        if kind is LayKind.CROSSWAYS and problem.nap:
            continue
        try:
            found = _doubled(problem, kind, effort, single_end)
        except LayError:
            continue
        if best is None or found.length < best.length:
            best = found
            effort = replace(effort, beat=min(effort.beat or best.length, best.length))
        # With nothing to double all these lays are the same: everything is cut single.
        if best.length <= effort.enough or not found.folded_to:
            break
    return best


def _doubled(
    problem: Problem, kind: LayKind | None, effort: Effort, single_end: SingleEnd | None
) -> Folded:
    """The lay of one kind of two layers."""
    effort = _whole(effort)
    return DOUBLED[kind](problem, effort, single_end or SingleEnd(problem, effort))


def _whole(effort: Effort) -> Effort:
    """All of the effort: the rows of a doubled lay are shorter than the lay itself."""
    return replace(effort, enough=0)


def _as_folded(problem: Problem, folded: Folded) -> Lay:
    lay = unmeasured(problem, folded.kind, folded.length, folded.placements)
    return replace(
        lay,
        folds=folded.folds,
        cross_fold=folded.cross_fold,
        folded_to=folded.folded_to / FINE,
    )


def unmeasured(
    problem: Problem, kind: LayKind, length: int, placements: tuple[Placement, ...]
) -> Lay:
    """A lay whose figures are still to be measured."""
    return Lay(
        kind=kind,
        width=problem.width,
        nap=problem.nap,
        need=length / FINE,
        placements=placements,
        folds=(),
        cross_fold=None,
        folded_to=0.0,
        utilisation=0.0,
        bound=Bound(0.0, ""),
        solver="quick",
        seed=0,
        seconds=0.0,
        checked=False,
        repeat_at=problem.repeat.at if problem.repeat is not None else None,
    )


def _measured(lay: Lay, copies: tuple[tuple[Form, ...], ...], bound: Bound, seed: int) -> Lay:
    """The lay with its figures: areas are in solver units."""
    area = sum(copy[0].area for copy in copies) / FINE**2
    return replace(lay, utilisation=area / (lay.width * lay.need), bound=bound, seed=seed)
