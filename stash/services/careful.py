"""Looking longer for one lay, as long as the person will wait."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from stash.lay.errors import LayError
from stash.lay.key import problem_key
from stash.lay.problem import LayKind
from stash.pairing.needs import problem_of
from stash.services.solving import prepared

if TYPE_CHECKING:
    from collections.abc import Callable

    from stash.lay.problem import Problem
    from stash.lay.result import Lay
    from stash.pairing.needs import Question
    from stash.services.laybook import StashLays
    from stash.services.stash import Stash

_WHOLE = (None, LayKind.OPEN)
"""Asked for these, a search looks among all lays there are."""


def look_longer(
    stash: Stash,
    question: Question,
    book: StashLays,
    seconds: float,
    progress: Callable[[float, float], bool] | None = None,
) -> None:
    """Search for a shorter lay for about `seconds`; one that is found is kept from now on.

    `progress` hears the share of the time spent and the best need so far in mm; when it
    answers False the search stops with the best so far. Where there are no pieces, or no
    lay at all, nothing happens: the answer will say so.
    """
    if not question.has_pieces:
        return
    from stash.lay.solve import solve_carefully

    seed = stash.settings.seed
    problem = problem_of(question)
    try:
        lay = solve_carefully(problem, seconds, kind=question.kind, seed=seed, progress=progress)
    except LayError:
        return
    keep(stash, question, lay, book)


def keep(stash: Stash, question: Question, lay: Lay, book: StashLays) -> None:
    """Keep it as the answer to this question, to its own kind, and to the shortest of all kinds.

    And opened out as an open lay, since none is longer than one of two layers. Where only a lay
    of two layers was asked for, the other answers are worked out first: it may be no match.
    """
    others = () if question.kind in _WHOLE else _WHOLE
    prepared(stash, [replace(question, kind=kind) for kind in others], book=book)
    for kind in dict.fromkeys((question.kind, lay.kind, *_WHOLE)):
        problem = problem_of(replace(question, kind=kind))
        key = problem_key(problem, kind, stash.settings.seed)
        known = book.get(key)
        same = known is not None and lay.need == known.need and kind == question.kind
        if same or known is None or lay.need < known.need:
            fit = _opened(problem, lay) if kind is LayKind.OPEN else lay
            if fit is not None:
                book.put(key, fit)


def _opened(problem: Problem, lay: Lay) -> Lay | None:
    from stash.pairing.ways.carry import carried  # the geometry libraries, as for a lay

    return lay if lay.kind is LayKind.OPEN else carried(problem, lay, problem)
