"""A problem with choices in it as problems without: each is solved, the shortest lay counts.

Where the print begins is for the solver to choose; it tries the places at which one of the
matching pieces starts the cloth. What may lie off grain is laid on grain first, so tolerance
never makes the answer longer.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from stash.lay.forms import FINE, forms_in, stands_upright, turns_allowed, whole_outline

if TYPE_CHECKING:
    from collections.abc import Iterator

    from stash.lay.forms import Form
    from stash.lay.problem import Problem, Repeat

MOST_STARTS = 4
"""Places for the print to begin that are tried."""
SAME_MM = 10.0
"""Places nearer each other than that are tried once: a start elsewhere gains less than it."""


def trials(problem: Problem) -> tuple[Problem, ...]:
    """The problems to solve instead: strict ones first. Of a plain problem it is itself."""
    problem = without_idle_rules(problem)
    strict = replace(problem, shapes=tuple(replace(s, tolerance=0) for s in problem.shapes))
    starts = [problem.repeat]
    if problem.repeat is not None and problem.repeat.at is None:
        starts = [replace(problem.repeat, at=at) for at in _starts(strict, problem.repeat)]
    kinds = (problem,) if strict == problem else (strict, problem)
    return tuple(replace(one, repeat=repeat) for one in kinds for repeat in starts)


def without_idle_rules(problem: Problem) -> Problem:
    """The problem without a repeat nothing has to match, or match points without a repeat."""
    if problem.matches:
        return problem
    shapes = tuple(replace(shape, match=None) for shape in problem.shapes)
    return replace(problem, shapes=shapes, repeat=None)


def _starts(problem: Problem, repeat: Repeat) -> list[float]:
    """Places for the lattice, mm, at each of which a matching piece starts the cloth.

    Those for pieces that need not stand on their heads come first, of them the longest.
    """
    forms = [form for index, _ in enumerate(problem.shapes) for form in _forms(problem, index)]
    forms.sort(key=lambda form: (not stands_upright(form), -form.length, form.turn))
    marks = [form.mark[0] / FINE for form in forms if form.mark is not None]
    if repeat.half_drop:  # the piece may begin in a column that is shifted
        marks += [mark + repeat.along / 2 for mark in marks]
    found: list[float] = []
    for mark in marks:
        at = mark % repeat.along
        if all(_apart(at, other, repeat.along) > SAME_MM for other in found):
            found.append(at)
    return found[:MOST_STARTS]


def _forms(problem: Problem, index: int) -> Iterator[Form]:
    """The forms of every copy, one of each pair."""
    shape = problem.shapes[index]
    both = (False, True) if shape.mirrored and shape.copies > 1 else (False,)
    turns = turns_allowed(shape, problem.nap)
    yield from forms_in(problem, index, whole_outline(shape), turns, both)


def _apart(one: float, other: float, along: float) -> float:
    """Distance between two places that are the same one repeat further on."""
    off = abs(one - other) % along
    return min(off, along - off)
