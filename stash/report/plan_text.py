"""The season plan as text to read at the table."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from stash.report.buy_text import buy_text
from stash.report.columns import sides, wrapped
from stash.units.enough import show_enough
from stash.units.format_length import Measure, show_length

if TYPE_CHECKING:
    from stash.config import System
    from stash.pairing.judgement import Need, Pairing, PlannedRole, SeasonPlan
    from stash.pairing.moves import Move
    from stash.report.records import PlanBook


def proof_words(plan: SeasonPlan) -> str:
    """How good the plan is: how much more a better one could be worth, rounded up."""
    if plan.proven:
        return "no better plan exists"
    return f"within {math.ceil(plan.gap * 1000) / 10:.1f}% of the best"


def plan_text(book: PlanBook, width: int = 80) -> str:
    """Every make in the order to sew, then what has to be bought."""
    plan = book.plan
    if not plan.order:
        return "Nothing is waiting to be cut. Add a make: stash make add NAME --pattern PATTERN"
    lines = [sides("Season plan, in the order to sew", proof_words(plan), width), "=" * width]
    if book.supposed:
        lines.append(wrapped(f"Supposed: {'; '.join(book.supposed)}.", width))
    for place, make_id in enumerate(plan.order, start=1):
        lines += ["", _heading(book, place, make_id, width)]
        for role in plan.roles:
            if role.make_id == make_id:
                lines += _role(book, role, width)
    lines += moved(book, width)
    lines += ["", "", buy_text(book.buying, book.settings, width)]
    return "\n".join(lines)


def _heading(book: PlanBook, place: int, make_id: int, width: int) -> str:
    make = book.makes[make_id]
    pattern = book.patterns[make.pattern_id]
    facts = [pattern.name, make.view, f"size {make.size}" if make.size else ""]
    person = book.people.get(make.person_id or 0)
    facts.append(f"for {person}" if person else "")
    tests = book.makes.get(make.muslin_for or 0)
    if tests:
        facts.append(f"muslin for {tests.name}")
    due = f"due {make.due}" if make.due else f"priority {make.priority}"
    title = f"{place:>2}. {make.name}"
    return f"{sides(title, due, width)}\n{wrapped(', '.join(f for f in facts if f), width, 4)}"


def _role(book: PlanBook, role: PlannedRole, width: int) -> list[str]:
    system = book.settings.system
    chosen = role.pairing
    if chosen is None:
        what = ("waits for the budget", "wait") if role.waits else ("to be bought", "buy")
        lines = [sides(f"    {role.role}: {what[0]}", what[1], width)]
    else:
        name = book.cloths[chosen.cloth_id].name
        pinned = " (promised)" if role.pinned else ""
        verdict = f"{chosen.verdict}, suit {chosen.suit:.0%}"
        lines = [
            sides(f"    {role.role}: {name}{pinned}", verdict, width),
            wrapped(amounts(chosen, system), width, 8),
        ]
    lines.append(wrapped(role.why, width, 8))
    if role.runner_up is not None:
        other = role.runner_up
        name = book.cloths[other.cloth_id].name
        words = f"Runner-up: {name}, {other.verdict}, suit {other.suit:.0%}. "
        lines.append(wrapped(words + amounts(other, system), width, 8))
    for caution in chosen.cautions if chosen else ():
        lines.append(wrapped(f"Caution: {caution}", width, 8))
    return lines


def moved(book: PlanBook, width: int = 80) -> list[str]:
    """What moved, line by line, and why; one line where something was supposed and nothing did."""
    if not book.moves:
        return ["", "", "Nothing else moves."] if book.supposed else []
    against = "the plan as things are" if book.supposed else "the plan you accepted"
    lines = ["", "", f"Moved against {against}", "-" * width]
    for move in book.moves:
        lines.append(wrapped(move_words(book, move), width, hang=4))
        lines.append(wrapped(move.why, width, 4))
    return lines


def move_words(book: PlanBook, move: Move) -> str:
    """One move in a line: which role, from what, to what."""
    names = [
        "to be bought" if cloth is None or cloth not in book.cloths else book.cloths[cloth].name
        for cloth in (move.before, move.after)
    ]
    return f"{book.makes[move.make_id].name}, {move.role}: {names[0]} → {names[1]}"


def amounts(pairing: Pairing, system: System) -> str:
    """Need, have and spare of a pairing in one sentence."""
    need = pairing.need
    if need.length is None:
        return need.why
    shown = show_enough(need.length, pairing.have, system)
    how = f"{need.lay.kind}, " if need.lay else ""
    sure = how_sure(need, system)
    return f"Needs {shown.needs} ({how}{sure}) of {shown.holds}: {shown.words}."


def how_sure(need: Need, system: System) -> str:
    """Where a need comes from, with its range if it is estimated within one."""
    if need.low is None or need.high is None:
        return str(need.sureness)
    low, high = (show_length(one, system, Measure.NEED) for one in (need.low, need.high))
    if low == high:
        return str(need.sureness)
    likely = "" if need.likely is None else show_length(need.likely, system, Measure.NEED)
    return f"{need.sureness} from {low} to {high}" + (f", likely {likely}" if likely else "")
