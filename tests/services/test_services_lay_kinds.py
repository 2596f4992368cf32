"""Every kind of lay beside the others, on pieces that can be laid out in the head."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import pytest

from stash.errors import BadInputError, StoppedError
from stash.lay.key import problem_key
from stash.lay.problem import LayKind
from stash.services.asked import asked_of
from stash.services.careful import keep
from stash.services.cloths import add_cloth
from stash.services.lay_kinds import lay_kinds
from stash.services.laybook import StashLays
from stash.services.laying import lay_any, lay_make
from stash.services.makes import add_make
from stash.services.patterns import add_chart_row, add_pattern, add_piece
from stash.services.whole import read_whole

if TYPE_CHECKING:
    from stash.lay.result import Placement
    from stash.report.records import KindRow
    from stash.services.asked import How
    from stash.services.stash import Stash
    from stash.units.length import Length


@pytest.fixture
def skirt(empty_stash: Stash) -> Stash:
    """Two rectangles of 60 x 62 cm and washed linen, 138 cm between its selvedges."""
    add_pattern(empty_stash, {"name": "quay skirt", "kind": "straight skirt"})
    half = {"name": "half", "width": "60 cm", "length": "62 cm", "copies": "2"}
    add_piece(empty_stash, "quay skirt", "rectangle", half)
    add_make(empty_stash, {"name": "market skirt", "pattern": "quay skirt"})
    linen = {"name": "linen", "structure": "woven", "width": "140 cm", "length": "1 m"}
    add_cloth(empty_stash, linen | {"washed": "yes"})
    return empty_stash


def by_kind(stash: Stash, ref: str = "market", **how: object) -> dict[LayKind, KindRow]:
    return {row.kind: row for row in lay_kinds(stash, ref, **how).rows}  # type: ignore[arg-type]


def mm(length: Length | None) -> float:
    assert length is not None
    return length.mm


def test_lengths_of_two_rectangles(skirt: Stash) -> None:
    """Side by side they are 120 cm wide and 62 cm long; folded 69 cm wide the pair is one
    placement of 62 cm; end to end each layer is 62 cm, so 124 cm of cloth (by hand)."""
    table = lay_kinds(skirt, "market")
    needs = {row.kind: row.need.mm for row in table.rows if row.need}
    assert {kind: round(need) for kind, need in needs.items()} == {
        LayKind.OPEN: 620,
        LayKind.FOLDED: 620,
        LayKind.GATE: 620,
        LayKind.CROSSWAYS: 1240,
    }
    assert table.best is LayKind.FOLDED  # as short as the open one, and half the cutting
    assert table.have is not None
    rows = {row.kind: row for row in table.rows}
    assert mm(rows[LayKind.CROSSWAYS].longer) == pytest.approx(620, abs=0.01)
    assert mm(rows[LayKind.CROSSWAYS].spare) == pytest.approx(-240, abs=0.01)


def test_they_are_the_lengths_of_the_lays_themselves(small: Stash) -> None:
    rows = by_kind(small, "rain", cloth="olive")
    for kind, row in rows.items():
        assert row.need == lay_make(small, "rain", cloth="olive", kind=kind).need.length
    needs = [mm(row.need) for row in rows.values()]
    assert mm(rows[LayKind.OPEN].need) == min(needs)  # every lay opens out into an open one


def test_what_cannot_be_laid_says_why(skirt: Stash) -> None:
    rows = by_kind(skirt, width="90 cm", nap=True)
    assert rows[LayKind.OPEN].need is not None
    assert rows[LayKind.FOLDED].need is None
    assert "one of the two layers only 44.0 cm. Lay this cloth open." in rows[LayKind.FOLDED].why
    assert rows[LayKind.CROSSWAYS].need is None
    assert "nap" in rows[LayKind.CROSSWAYS].why


def test_a_piece_wider_than_the_cloth_is_named(skirt: Stash) -> None:
    with pytest.raises(BadInputError, match="half is"):
        lay_kinds(skirt, "market", width="50 cm")


def test_the_gap_counts(skirt: Stash) -> None:
    """62 cm, 2 cm between the layers' pieces, 62 cm: the second begins after the gap."""
    rows = by_kind(skirt, width="100 cm", gap="2 cm")
    assert mm(rows[LayKind.OPEN].need) == pytest.approx(1260, abs=0.5)


def test_a_chart_has_no_kinds(empty_stash: Stash) -> None:
    add_pattern(empty_stash, {"name": "quay skirt", "kind": "straight skirt", "sizes": "M"})
    row = {"size": "M", "width": "140 cm", "amount": "1.5 m"}
    add_chart_row(empty_stash, "quay skirt", row)
    with pytest.raises(BadInputError, match="no pieces for main"):
        lay_kinds(empty_stash, "quay", width="140 cm")


def test_it_can_be_stopped(skirt: Stash) -> None:
    with pytest.raises(StoppedError):
        lay_kinds(skirt, "market", cancelled=lambda: True)


def test_a_number_may_mean_the_pattern(skirt: Stash) -> None:
    """Number 1 is the make market skirt; the pattern of that number is another thing."""
    assert lay_kinds(skirt, "1").title.startswith("market skirt")
    bare = lay_kinds(skirt, "1", bare=True, cloth="linen")
    assert bare.title.startswith("quay skirt")


def test_a_careful_search_tells_how_far_it_is_and_ends_when_told(small: Stash) -> None:
    heard: list[tuple[float, float]] = []

    def told(share: float, best: float) -> bool:
        heard.append((share, best))
        return len(heard) < 2

    # At this width the legs lie neither two abreast nor one: no bound ends the search.
    asked: How = {"width": "115 cm", "kind": LayKind.OPEN}
    before = lay_make(small, "rain", **asked).need.length
    longer: How = {**asked, "careful": 600.0, "told": told}
    laid = lay_any(small, "rain", **longer)
    assert len(heard) == 2  # of 600 seconds it took as long as two reports
    assert all(0 <= share < 0.5 and best > 0 for share, best in heard)
    assert before is not None
    assert laid.need.length is not None
    assert laid.need.length.nm <= before.nm


def test_what_a_careful_search_finds_is_the_shortest_kind_too(small: Stash) -> None:
    laid = lay_make(small, "rain", cloth="olive", kind=LayKind.OPEN, careful=1.0)
    best = lay_make(small, "rain", cloth="olive")
    assert laid.need.length is not None
    assert best.need.length is not None
    assert best.need.length.nm <= laid.need.length.nm


def test_the_shortest_lay_says_what_it_would_need_folded(small: Stash) -> None:
    rows = by_kind(small, "rain", cloth="olive")
    laid = lay_make(small, "rain", cloth="olive")
    assert laid.lay is not None
    assert laid.lay.kind is LayKind.OPEN
    assert laid.folded == rows[LayKind.FOLDED].need
    assert mm(laid.folded) > mm(laid.need.length)


def test_nothing_is_set_beside_a_kind_that_was_asked_for(small: Stash) -> None:
    assert lay_make(small, "rain", cloth="olive", kind=LayKind.OPEN).folded is None
    assert lay_make(small, "rain", cloth="olive", times=2).folded is None


def test_nothing_is_set_beside_a_folded_lay(skirt: Stash) -> None:
    laid = lay_make(skirt, "market", cloth="linen")
    assert laid.lay is not None
    assert laid.lay.kind is LayKind.FOLDED
    assert laid.folded is None


def test_a_folded_lay_that_is_known_to_be_shorter_is_the_shortest(skirt: Stash) -> None:
    """As after a longer search for a folded lay, before any other was asked for."""
    laid = lay_make(skirt, "market", cloth="linen", kind=LayKind.OPEN)
    assert laid.problem is not None
    assert laid.lay is not None
    later = replace(laid.lay, need=laid.lay.need + 100, placements=_later(laid.lay.placements))
    asked = problem_key(laid.problem, None, skirt.settings.seed)
    StashLays(skirt).put(asked, later)
    for _ in range(2):
        found = lay_make(skirt, "market", cloth="linen")
        assert found.lay is not None
        assert found.lay.kind is LayKind.FOLDED
        assert mm(found.need.length) == pytest.approx(620, abs=0.01)


def _later(placements: tuple[Placement, ...]) -> tuple[Placement, ...]:
    """All of them 10 cm further along the cloth."""
    return tuple(
        replace(placed, polygon=tuple((x + 100, y) for x, y in placed.polygon))
        for placed in placements
    )


def test_a_folded_lay_looked_for_longer_is_an_open_one_too(skirt: Stash) -> None:
    """Opened out; whatever else was known of the same pieces, and whether it was or not."""
    folded = lay_make(skirt, "market", cloth="linen", kind=LayKind.FOLDED)
    assert folded.problem is not None
    assert folded.lay is not None
    assert folded.make is not None
    longer = replace(folded.lay, need=720.0, placements=_later(folded.lay.placements))
    question = asked_of(skirt, read_whole(skirt), folded.make, "main", {"cloth": "linen"}).question
    book = StashLays(skirt)
    for kind in (None, LayKind.OPEN):
        book.put(problem_key(folded.problem, kind, skirt.settings.seed), longer)
    keep(skirt, replace(question, kind=LayKind.FOLDED), folded.lay, book)
    for kind in (None, LayKind.OPEN):
        found = lay_make(skirt, "market", cloth="linen", kind=kind)
        assert mm(found.need.length) == pytest.approx(620, abs=0.01)
        assert found.lay is not None
        assert found.lay.kind is (kind or LayKind.FOLDED)


def test_a_crossways_lay_looked_for_longer_is_not_the_answer_to_others(skirt: Stash) -> None:
    laid = lay_make(skirt, "market", cloth="linen", kind=LayKind.CROSSWAYS, careful=1.0)
    assert mm(laid.need.length) == pytest.approx(1240, abs=0.01)
    for kind in (None, LayKind.OPEN):
        found = lay_make(skirt, "market", cloth="linen", kind=kind)
        assert mm(found.need.length) == pytest.approx(620, abs=0.01)


def test_a_lay_known_for_a_narrower_width_serves_a_wider_one(skirt: Stash) -> None:
    """As if the quick search had been less lucky on the wider one."""
    wide: How = {"width": "140 cm", "kind": LayKind.OPEN}
    laid = lay_make(skirt, "market", **wide)
    assert laid.problem is not None
    assert laid.lay is not None
    later = replace(laid.lay, need=720.0, placements=_later(laid.lay.placements))
    key = problem_key(laid.problem, LayKind.OPEN, skirt.settings.seed)
    StashLays(skirt).put(key, later)
    assert mm(lay_make(skirt, "market", **wide).need.length) == pytest.approx(720, abs=0.01)
    lay_make(skirt, "market", width="135 cm", kind=LayKind.OPEN)
    assert mm(lay_make(skirt, "market", **wide).need.length) == pytest.approx(620, abs=0.01)


def test_what_cannot_be_folded_is_not_set_beside_the_lay(skirt: Stash) -> None:
    laid = lay_any(skirt, "market", width="90 cm", nap=True)
    assert laid.lay is not None
    assert laid.folded is None


def test_a_gap_nobody_keeps_is_told_as_it_was_typed(skirt: Stash) -> None:
    with pytest.raises(BadInputError, match=r"'9in' is no gap .* from 0 to 10 cm"):
        by_kind(skirt, width="100 cm", gap="9in")
