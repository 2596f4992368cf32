"""The lay of the block that stands in for pieces nobody has, so that an estimate can be seen."""

from __future__ import annotations

from typing import TYPE_CHECKING

from stash.lay.errors import LayError
from stash.lay.key import problem_key
from stash.pairing.blocked import stood_in
from stash.report.records import StandIn

if TYPE_CHECKING:
    from stash.lay.problem import LayKind, Problem
    from stash.pairing.needs import Question
    from stash.services.laybook import StashLays


def stand_in(question: Question, book: StashLays, seed: int) -> StandIn | None:
    """The likely block laid out on the cloth of an estimate; None where none can be drawn.

    Args:
        question: What was answered by an estimate.
        book: Holds the lays that the estimate rests on; this one is kept too.
        seed: Of the search.
    """
    stood = stood_in(question)
    if stood is None:
        return None

    def laid(problem: Problem, kind: LayKind | None) -> float | None:
        lay = book.get(problem_key(problem, kind, seed))
        return None if lay is None else lay.need

    problem = stood.likely(laid)
    if problem is None:
        return None
    key = problem_key(problem, question.kind, seed)
    lay = book.get(key)
    if lay is None or not book.is_sound(key, problem):
        from stash.lay.solve import solve

        try:
            lay = solve(problem, kind=question.kind, seed=seed)
        except LayError:
            return None
        book.put(key, lay)
    return StandIn(problem, lay)
