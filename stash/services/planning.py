"""The season plan: the whole queue against the whole shelf at once."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from stash.errors import StoppedError
from stash.garment.pattern import Role
from stash.pairing.filling import Shelf
from stash.pairing.moves import accepted, moves
from stash.pairing.moves import planned as planned_before
from stash.pairing.nature import natures_for
from stash.pairing.needs import question_for
from stash.pairing.plan import season_plan as planned
from stash.pairing.slots import plan_questions
from stash.report.records import PlanBook
from stash.services.buying import list_for
from stash.services.laybook import StashLays
from stash.services.solving import doubtful, prepared
from stash.services.supposing import suppose
from stash.services.whole import Whole, read_whole

if TYPE_CHECKING:
    from collections.abc import Sequence

    from stash.pairing.judgement import PlannedRole, SeasonPlan
    from stash.pairing.needs import Question
    from stash.pairing.shortlist import AtHand
    from stash.services.progress import Cancelled, Progress
    from stash.services.stash import Stash


def season_plan(
    stash: Stash,
    *,
    progress: Progress | None = None,
    cancelled: Cancelled | None = None,
) -> SeasonPlan:
    """Every role of every make that still wants cloth gets a cloth or must be bought.

    Lays nobody has worked out yet are laid out first, on two processors, and kept.

    Raises:
        StoppedError: `cancelled` said so; lays found until then are kept.
    """
    return plan_book(stash, progress=progress, cancelled=cancelled).plan


def plan_book(
    stash: Stash,
    *,
    what_if: Sequence[str] = (),
    progress: Progress | None = None,
    cancelled: Cancelled | None = None,
) -> PlanBook:
    """The season plan with every record it names, the buying list, and what moved.

    Args:
        stash: The stash.
        what_if: Suppositions such as `drop shirt`; see `supposing`. What moves is then told
            against the plan without them. Nothing is kept but the lays.
        progress: Told how far the work is.
        cancelled: Asked between steps.

    Raises:
        StoppedError: `cancelled` said so; lays found until then are kept.
        BadInputError, NotFoundError: A supposition cannot be read.
    """
    whole = read_whole(stash)
    book = StashLays(stash, brief=True)
    before = accepted(whole.promises)
    words: tuple[str, ...] = ()
    if what_if:
        supposed = suppose(stash, whole, what_if)
        before = planned_before(_checked_plan(stash, whole, book, progress, cancelled))
        whole, words = supposed.whole, supposed.words
    plan = _checked_plan(stash, whole, book, progress, cancelled)
    return PlanBook(
        plan=plan,
        makes=whole.makes,
        patterns=whole.patterns,
        cloths=whole.cloths,
        people={person.id: person.name for person in whole.people.values()},
        buying=list_for(whole, plan, stash.settings),
        settings=stash.settings,
        moves=moves(before, plan),
        supposed=words,
    )


def _checked_plan(
    stash: Stash,
    whole: Whole,
    book: StashLays,
    progress: Progress | None,
    cancelled: Cancelled | None,
) -> SeasonPlan:
    """The plan; made again while a kept lay it rests on does not pass the check any more."""
    plan = _plan(stash, whole, book, progress, cancelled)
    while doubtful(stash, _shown(whole, plan), book):
        plan = _plan(stash, whole, book, progress, cancelled)
    return plan


def _plan(
    stash: Stash,
    whole: Whole,
    book: StashLays,
    progress: Progress | None,
    cancelled: Cancelled | None,
) -> SeasonPlan:
    makes = tuple(whole.makes.values())
    shelf = tuple(whole.cloths.values())
    natures = natures_for(stash.settings)

    def questions(at_hand: AtHand) -> tuple[Question, ...]:
        return plan_questions(
            makes, whole.patterns, shelf, whole.promises, stash.settings, natures, at_hand
        )

    needs = prepared(stash, questions, book=book, progress=progress, cancelled=cancelled)

    def tell(done: int, total: int, what: str) -> None:
        if cancelled and cancelled():
            raise StoppedError("Stopped.", "What was worked out until now is kept.")
        if progress:
            progress(done, total, what)

    return planned(
        Shelf(makes, whole.patterns, whole.cloths, whole.promises, whole.people),
        needs,
        stash.settings,
        stash.today(),
        tell,
        natures,
    )


def _shown(whole: Whole, plan: SeasonPlan) -> list[Question]:
    """The questions whose lays the plan rests on: chosen cloths and runners-up."""
    shown = []
    for role in plan.roles:
        make = whole.makes[role.make_id]
        for pairing in (role.pairing, role.runner_up):
            if pairing is None or (pairing.need.lay is None and pairing.need.likely is None):
                continue
            cloth = whole.cloths[pairing.cloth_id]
            asked = question_for(make, whole.pattern_of(make), role.role, cloth)
            if role.with_ is not None and pairing is role.pairing:
                asked = _beside(whole, role, asked)
            shown.append(asked)
    return shown


def _beside(whole: Whole, role: PlannedRole, asked: Question) -> Question:
    """The question of a joint lay, as it was put: the role that comes first in the plan leads."""
    assert role.with_ is not None
    other = whole.makes[role.with_[0]]
    one = (asked.make, asked.pattern, asked.role)
    two = (other, whole.pattern_of(other), role.with_[1])
    first, second = sorted((one, two), key=lambda each: (each[0].id, list(Role).index(each[2])))
    return replace(asked, make=first[0], pattern=first[1], role=first[2], beside=(second,))
