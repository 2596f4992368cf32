"""The one door to the estimator: a problem in, the shortest checked lay out."""

from __future__ import annotations

import time
from dataclasses import replace
from typing import TYPE_CHECKING

from stash.lay.bounds import bound_of
from stash.lay.check import check
from stash.lay.errors import LayError
from stash.lay.folded_lay import Folded, folded_placements, half_width, lay_folded
from stash.lay.forms import FINE, sheet_width
from stash.lay.key import QUICK_TRIES
from stash.lay.obstacles import strip_of
from stash.lay.open_lay import lay_open, open_copies, open_placements
from stash.lay.problem import LayKind
from stash.lay.result import Bound, Lay
from stash.lay.search import Effort
from stash.lay.table import Item
from stash.lay.validate import validate

if TYPE_CHECKING:
    from collections.abc import Callable

    from stash.lay.forms import Form
    from stash.lay.problem import Problem
    from stash.lay.result import Placement
    from stash.lay.search import Found


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
        TooNarrowError: a piece wider than the cloth (or than half of it, for a folded lay).
        NoRoomError: the pieces do not fit on a remnant.
        LayError: anything else that makes a lay impossible.
    """
    start = time.perf_counter()
    validate(replace(problem, kind=kind or LayKind.OPEN))
    copies = open_copies(problem)  # first, so that a piece wider than the whole cloth is named
    effort = Effort(tries=tries, seed=seed)
    folded = _folded(problem, effort, wanted=kind is LayKind.FOLDED)
    if kind is LayKind.FOLDED and folded is not None:
        lay = _as_folded(problem, folded)
    else:
        lay = _as_open(problem, lay_open(problem, effort), folded)
        if kind is None and folded is not None and folded.length / FINE <= lay.need:
            lay = _as_folded(problem, folded)  # as short, and half the cutting
    lay = _measured(lay, copies, sheet_width(problem), seed)
    return checked(problem, replace(lay, seconds=time.perf_counter() - start))


def solve_carefully(
    problem: Problem,
    seconds: float,
    *,
    kind: LayKind | None = None,
    seed: int = 1,
    progress: Callable[[float, float], bool] | None = None,
) -> Lay:
    """The shortest legal lay found in about `seconds`, checked; never longer than `solve`'s.

    Only open lays are searched further; a folded lay that is still as short is kept.
    `progress` hears the share of the time spent and the best need so far in mm; when it
    answers False the search stops and the best so far is returned.

    Raises:
        LayError: as `solve`.
    """
    from stash.lay.careful import search_carefully  # scipy, wanted for nothing else here

    start = time.perf_counter()
    quick = solve(problem, kind=kind, seed=seed)
    if kind is LayKind.FOLDED:
        return quick
    copies = open_copies(problem)
    items = tuple(Item(forms) for forms in copies)
    told = None if progress is None else lambda share, best: progress(share, best / FINE)
    found = search_carefully(strip_of(problem), items, seconds, seed, told)
    if found.row is None or found.length / FINE >= quick.need:
        return replace(quick, solver="careful", seconds=time.perf_counter() - start)
    lay = _lay(problem, LayKind.OPEN, found.length, open_placements(problem, found.row))
    lay = _measured(lay, copies, sheet_width(problem), seed)
    spent = time.perf_counter() - start
    return checked(problem, replace(lay, solver="careful", seconds=spent))


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


def _folded(problem: Problem, effort: Effort, *, wanted: bool) -> Folded | None:
    """The folded lay; None where there is none and nobody asked for it by name."""
    try:
        return None if problem.outline else lay_folded(problem, effort)
    except LayError:
        if wanted:
            raise
        return None


def _as_open(problem: Problem, found: Found, folded: Folded | None) -> Lay:
    """The open lay: never longer than the folded one opened out."""
    length, placements = found.length, open_placements(problem, found.row or ())
    if folded is not None and folded.length < length:
        length = folded.length
        placements = tuple(
            replace(p, single=False) for p in folded_placements(problem, folded) if not p.waste
        )
    return _lay(problem, LayKind.OPEN, length, placements)


def _as_folded(problem: Problem, folded: Folded) -> Lay:
    lay = _lay(problem, LayKind.FOLDED, folded.length, folded_placements(problem, folded))
    return replace(lay, fold=half_width(problem) / FINE, folded_to=folded.folded_to / FINE)


def _lay(problem: Problem, kind: LayKind, length: int, placements: tuple[Placement, ...]) -> Lay:
    """A lay whose figures are still to be measured."""
    return Lay(
        kind=kind,
        width=problem.width,
        nap=problem.nap,
        need=length / FINE,
        placements=placements,
        fold=None,
        folded_to=0.0,
        utilisation=0.0,
        bound=Bound(0.0, ""),
        solver="quick",
        seed=0,
        seconds=0.0,
        checked=False,
    )


def _measured(lay: Lay, copies: tuple[tuple[Form, ...], ...], width: int, seed: int) -> Lay:
    area = sum(copy[0].area for copy in copies)
    used = area / (width * lay.need * FINE)
    return replace(lay, utilisation=used, bound=bound_of(copies, width), seed=seed)
