"""What can be sewn next, and what stops it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from stash.garment.make import State
from stash.services.planning import season_plan
from stash.services.whole import Whole, read_whole

if TYPE_CHECKING:
    from stash.garment.make import Make
    from stash.pairing.judgement import PlannedRole, SeasonPlan
    from stash.services.progress import Cancelled, Progress
    from stash.services.stash import Stash

UNDER_WAY = (State.SEWING, State.CUT)


@dataclass(frozen=True, slots=True, kw_only=True)
class BenchRow:
    """A make that is not finished yet."""

    make: Make
    pattern: str
    person: str
    roles: tuple[PlannedRole, ...]
    """Empty once the make is cut."""
    cloths: tuple[str, ...]
    """The cloth of each role in words: `main: olive needlecord`."""
    ready: bool
    """Nothing stops it."""
    stops: tuple[str, ...]
    """What has to happen first, one sentence each."""


def bench(
    stash: Stash,
    plan: SeasonPlan | None = None,
    *,
    progress: Progress | None = None,
    cancelled: Cancelled | None = None,
) -> tuple[BenchRow, ...]:
    """The makes that are under way, then the others in the order of the season plan."""
    if plan is None:
        plan = season_plan(stash, progress=progress, cancelled=cancelled)
    whole = read_whole(stash)
    started = [make for state in UNDER_WAY for make in whole.makes.values() if make.state is state]
    waiting = [whole.makes[make_id] for make_id in plan.order if make_id in whole.makes]
    rows = [_row(whole, make, ()) for make in started]
    for make in waiting:
        rows.append(_row(whole, make, tuple(r for r in plan.roles if r.make_id == make.id)))
    return tuple(rows)


def _row(whole: Whole, make: Make, roles: tuple[PlannedRole, ...]) -> BenchRow:
    stops = (*_waits_for(whole, make), *(stop for role in roles for stop in _stops(whole, role)))
    person = whole.person_of(make)
    cut = [(p.role, whole.cloths[p.cloth_id]) for p in whole.promises if p.make_id == make.id]
    planned = [(role.role, whole.cloths[role.pairing.cloth_id]) for role in roles if role.pairing]
    return BenchRow(
        make=make,
        pattern=whole.pattern_of(make).name,
        person=person.name if person else "",
        roles=roles,
        cloths=tuple(f"{role}: {cloth.name}" for role, cloth in planned or cut),
        ready=not stops,
        stops=stops,
    )


def _waits_for(whole: Whole, make: Make) -> tuple[str, ...]:
    """The muslins that are to be sewn first."""
    return tuple(
        f"Its muslin {other.name} comes first."
        for other in whole.makes.values()
        if other.muslin_for == make.id and other.state not in (State.WORN, State.LET_GO)
    )


def _stops(whole: Whole, role: PlannedRole) -> tuple[str, ...]:
    if role.pairing is None:
        return (f"{role.role.capitalize()}: to be bought. {role.why}",)
    cloth = whole.cloths[role.pairing.cloth_id]
    stops = []
    if not role.pairing.verdict.can_be_cut:
        missing = next((r.sentence for r in role.pairing.reasons if r.mark in (0, None)), "")
        verdict = role.pairing.verdict
        stops.append(f"{role.role.capitalize()}: {cloth.name} is {verdict}. {missing}".strip())
    if not cloth.washed:
        stops.append(f"Wash {cloth.name} first.")
    return tuple(stops)
