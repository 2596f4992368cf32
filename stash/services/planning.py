"""The season plan: the whole queue against the whole shelf at once."""

from __future__ import annotations

from typing import TYPE_CHECKING

from stash.errors import StoppedError
from stash.pairing.needs import question_for
from stash.pairing.plan import Shelf
from stash.pairing.plan import season_plan as planned
from stash.pairing.slots import plan_questions
from stash.report.records import PlanBook
from stash.services.buying import list_for
from stash.services.laybook import StashLays
from stash.services.solving import doubtful, prepared
from stash.services.whole import Whole, read_whole

if TYPE_CHECKING:
    from stash.pairing.judgement import SeasonPlan
    from stash.pairing.needs import Question
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
    progress: Progress | None = None,
    cancelled: Cancelled | None = None,
) -> PlanBook:
    """The season plan with every record it names and the buying list."""
    whole = read_whole(stash)
    book = StashLays(stash)
    plan = _plan(stash, whole, book, progress, cancelled)
    if doubtful(stash, _shown(whole, plan), book):
        plan = _plan(stash, whole, book, progress, cancelled)
    return PlanBook(
        plan=plan,
        makes=whole.makes,
        patterns=whole.patterns,
        cloths=whole.cloths,
        people={person.id: person.name for person in whole.people.values()},
        buying=list_for(whole, plan, stash.settings),
        settings=stash.settings,
    )


def _plan(
    stash: Stash,
    whole: Whole,
    book: StashLays,
    progress: Progress | None,
    cancelled: Cancelled | None,
) -> SeasonPlan:
    makes = tuple(whole.makes.values())
    shelf = tuple(whole.cloths.values())
    questions = plan_questions(makes, whole.patterns, shelf, whole.promises, stash.settings)
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
    )


def _shown(whole: Whole, plan: SeasonPlan) -> list[Question]:
    """The questions whose lays the plan rests on: chosen cloths and runners-up."""
    shown = []
    for role in plan.roles:
        make = whole.makes[role.make_id]
        for pairing in (role.pairing, role.runner_up):
            if pairing is not None and pairing.need.lay is not None:
                cloth = whole.cloths[pairing.cloth_id]
                shown.append(question_for(make, whole.pattern_of(make), role.role, cloth))
    return shown
