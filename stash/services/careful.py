"""Looking longer for one lay, as long as the person will wait."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from stash.lay.errors import LayError
from stash.lay.key import problem_key
from stash.lay.problem import LayKind
from stash.pairing.needs import problem_of

if TYPE_CHECKING:
    from collections.abc import Callable

    from stash.lay.result import Lay
    from stash.pairing.needs import Question
    from stash.services.laybook import StashLays
    from stash.services.stash import Stash


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
    keep(question, lay, book, seed)


def keep(question: Question, lay: Lay, book: StashLays, seed: int) -> None:
    """Keep it as the answer to this question, to its own kind, and to the shortest of all kinds.

    A lay of two layers that was asked for is the shortest of all only where it beats a known one.
    """
    whole = question.kind in (None, LayKind.OPEN)
    for kind in dict.fromkeys((question.kind, lay.kind, None)):
        key = problem_key(problem_of(replace(question, kind=kind)), kind, seed)
        known = book.get(key)
        if known is None:
            better = whole or kind is not None
        else:
            same = lay.need == known.need and kind == question.kind
            better = same or lay.need < known.need
        if better:
            book.put(key, lay)
