"""A lay known for a narrower width, kept as the answer on a wider one where it is shorter.

It is legal there: the rest of the width is left over. A quick search may be luckier on the
narrower width, and a person told both lengths would trust neither.
"""

from __future__ import annotations

import math
from dataclasses import replace
from typing import TYPE_CHECKING

from stash.lay.key import problem_key
from stash.lay.problem import LayKind
from stash.pairing.needs import problem_of

if TYPE_CHECKING:
    from collections.abc import Iterable

    from stash.lay.result import Lay
    from stash.pairing.needs import Question
    from stash.services.laybook import StashLays
    from stash.services.stash import Stash

REACH = 10
"""So many whole centimetres of usable width below are asked for: there the width curve lays."""


def look_narrower(stash: Stash, questions: Iterable[Question], book: StashLays) -> bool:
    """Keep a shorter lay of a slightly narrower width for each; whether there was one.

    The answers to these questions are kept already. Nothing is searched for.
    """
    found = [_found(stash, question, book) for question in questions]
    return any(found)


def _found(stash: Stash, question: Question, book: StashLays) -> bool:
    if not question.has_pieces:
        return False
    problem = problem_of(question)
    keys = [
        problem_key(replace(problem, width=float(width)), question.kind, stash.settings.seed)
        for width in (problem.width, *_whole_below(problem.width))
    ]
    own = book.get(keys[0])
    narrower = min(book.get_all(keys[1:]), key=lambda lay: lay.need, default=None)
    if own is None or narrower is None or narrower.need >= own.need:
        return False
    return keep_widened(stash, question, narrower, book) is not None


def _whole_below(width: float) -> range:
    """The nearest whole centimetres below, in mm."""
    nearest = math.ceil(width / 10) * 10 - 10
    return range(nearest, max(0, nearest - 10 * REACH), -10)


def keep_widened(stash: Stash, question: Question, lay: Lay, book: StashLays) -> Lay | None:
    """The lay as one of this question, kept, if the checker passes it and open lays count."""
    from stash.pairing.ways.carry import carried  # the geometry libraries, as for a lay

    if question.kind not in (None, LayKind.OPEN):
        return None
    problem = problem_of(question)
    wide = carried(problem, lay, problem)
    if wide is not None:
        book.put(problem_key(problem, question.kind, stash.settings.seed), wide)
    return wide
