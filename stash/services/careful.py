"""Looking longer for one lay, as long as the person will wait."""

from __future__ import annotations

from typing import TYPE_CHECKING

from stash.lay.errors import LayError
from stash.lay.key import problem_key
from stash.pairing.needs import problem_of

if TYPE_CHECKING:
    from collections.abc import Callable

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

    problem = problem_of(question)
    seed = stash.settings.seed
    try:
        lay = solve_carefully(problem, seconds, kind=question.kind, seed=seed, progress=progress)
    except LayError:
        return
    key = problem_key(problem, question.kind, seed)
    known = book.get(key)
    if known is None or lay.need <= known.need:
        book.put(key, lay)
