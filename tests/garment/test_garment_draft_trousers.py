"""Trouser drafting against rules in print."""

from __future__ import annotations

import pytest

from stash.garment.draft.piece import draft_piece
from stash.garment.draft.trousers import crotch_depth_ease
from stash.units.length import Length

NO_ALLOWANCE = {"seam": Length(0), "hem": Length(0), "casing": Length(0)}


def _leg(family: str, hip_mm: float, **changed: float) -> tuple[tuple[float, float], ...]:
    measures = {"hip": hip_mm, "crotch": 265, "length": 1000, "ankle": 400, **changed}
    return draft_piece(
        family,
        family,
        {key: Length.from_mm(mm) for key, mm in measures.items()} | NO_ALLOWANCE,
    ).outline


@pytest.mark.parametrize(
    ("hip_inches", "ease_inches"),
    # New Mexico State University Extension Guide C-209: 1/2 in below a 36 in hip,
    # 3/4 in from 36 to 38, 1 in above 38.
    [(35.5, 0.5), (36, 0.75), (37, 0.75), (38, 0.75), (39, 1)],
)
def test_crotch_depth_ease_follows_c209(hip_inches: float, ease_inches: float) -> None:
    assert crotch_depth_ease(Length.from_inches(hip_inches)) == Length.from_inches(ease_inches)


def test_front_and_back_go_round_the_hip_with_at_least_two_inches_of_ease() -> None:
    """C-209 asks at least 2 to 4 in of ease at the hip of trousers."""
    widths = 0.0
    for family in ("trouser front", "trouser back"):
        ring = _leg(family, 960, top=960 + 50.8)
        # At the hip line the leg is as wide as its waist when the top is not shaped.
        top = sorted(ring)[:1][0]
        opposite = max(ring, key=lambda p: abs(p[1] - top[1]) if p[0] < 40 else -1.0)
        widths += abs(opposite[1] - top[1])
    assert 2 * widths >= 960 + 2 * 25.4 - 1


def test_the_forks_together_are_fifteen_per_cent_of_the_hip() -> None:
    """15 % of hip/4 in front and 45 % behind: 15 % of the hip (a published block rule)."""
    hip = 1000.0
    fronts = _leg("trouser front", hip)
    backs = _leg("trouser back", hip)
    side_to_fork = sum(max(y for _, y in ring) for ring in (fronts, backs))
    # Less the two side overhangs at the waist, the legs measure half the hip with its
    # ease, and the forks.
    overhang = sum(next(-min(0.0, y) for _, y in [min(ring)]) for ring in (fronts, backs))
    forks = side_to_fork - overhang - (hip + 50.8) / 2
    assert forks == pytest.approx(150, abs=10)


def test_the_crotch_lies_at_the_seated_depth_with_its_ease() -> None:
    ring = _leg("trouser front", 37 * 25.4)
    fork = max(ring, key=lambda p: p[1])
    # C-209: seated depth and 3/4 in for a 37 in hip.
    assert fork[0] == pytest.approx(265 + 0.75 * 25.4, abs=0.01)


def test_the_finished_leg_is_as_long_as_asked_and_the_hem_as_wide() -> None:
    ring = _leg("trouser front", 960)
    assert max(x for x, _ in ring) == pytest.approx(1000)
    both = 0.0
    for family in ("trouser front", "trouser back"):
        ring = _leg(family, 960)
        end = max(x for x, _ in ring)
        hem = [y for x, y in ring if abs(x - end) < 0.01]
        both += max(hem) - min(hem)
    assert both == pytest.approx(400, abs=0.01)


def test_the_back_fork_reaches_further_than_the_front() -> None:
    assert max(y for _, y in _leg("trouser back", 960)) > max(
        y for _, y in _leg("trouser front", 960)
    )
