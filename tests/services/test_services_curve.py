"""The width curve of real makes: its steps, its cloths, and that it is kept."""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING

import pytest
from ready_stash import Ready, moved

from stash.config import System
from stash.errors import BadInputError, StoppedError
from stash.pairing.judgement import Sureness, Verdict
from stash.pairing.width_curve import SELVEDGES, CurvePoint, WidthCurve, need_at
from stash.report.lay_text import STANDS_IN, lay_text
from stash.services.cloths import add_cloth, edit_cloth
from stash.services.curve import MOST_LAYS, width_curve
from stash.services.laying import lay_make, lay_pattern
from stash.services.makes import add_make
from stash.services.patterns import add_chart_row, add_pattern, add_piece
from stash.store.patterns import find_pattern
from stash.units.length import Length

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from stash.services.stash import Stash

TROUSERS = "Winter ferry"


@pytest.fixture(scope="session")
def laid_once(
    ready_made: Callable[[str, str], Ready], tmp_path_factory: pytest.TempPathFactory
) -> Ready:
    """The sample with every lay of the curve."""
    place = tmp_path_factory.mktemp("curves")
    with ready_made("sample", "sqlite").copy(place) as stash:
        width_curve(stash, TROUSERS)
    return Ready(place)


@pytest.fixture(scope="module")
def laid_sample(
    backend: str, laid_once: Ready, tmp_path_factory: pytest.TempPathFactory
) -> Iterator[Stash]:
    """The sample in a copy these tests only read; on a server it was moved there."""
    with moved(backend, laid_once, tmp_path_factory.mktemp("moved")) as stash:
        yield stash


@pytest.fixture(scope="module")
def trousers(laid_sample: Stash) -> WidthCurve:
    return width_curve(laid_sample, TROUSERS)


def at_label(curve: WidthCurve, mm: float) -> CurvePoint:
    point = need_at(curve.points, Length.from_mm(mm) - SELVEDGES)
    assert point is not None
    return point


def test_trousers_fall_from_two_lengths_to_one(trousers: WidthCurve, laid_sample: Stash) -> None:
    """Two lengths of leg where the four legs do not lie side by side, one where they do
    (common practice); a published garment yardage chart has trousers at 3 1/4 yd of 35-36 in
    and 2 5/8 yd of 50 in, which is 1.24 times as much."""
    with laid_sample.read() as session:
        pattern = find_pattern(session, trousers.pattern)
    legs = pattern.pieces_for("", trousers.size, trousers.role)
    leg = max(max(x for x, _ in p.outline) - min(x for x, _ in p.outline) for p in legs)
    narrow, wide = at_label(trousers, 900).need, at_label(trousers, 1600).need
    assert narrow is not None
    assert wide is not None
    assert 1.8 * leg <= narrow.mm <= 2.2 * leg
    assert leg <= wide.mm <= 1.1 * leg
    between = at_label(trousers, 1270).need
    assert between is not None
    assert narrow.mm / between.mm >= 3.25 / 2.625


def test_the_fall_is_a_step_not_a_slope(trousers: WidthCurve) -> None:
    """By area a third more width would always save; legs lie beside each other or do not."""
    needs = [at_label(trousers, mm).need for mm in range(1500, 3001, 20)]
    assert len(set(needs)) == 1


def test_it_runs_from_70_to_300_cm_and_never_rises(trousers: WidthCurve) -> None:
    labels = {point.label.mm for point in trousers.points}
    assert labels >= set(range(700, 3001, 20))
    assert (min(labels), max(labels)) == (700, 3000)
    needs = [point.need for point in trousers.points if point.need is not None]
    assert all(one >= other for one, other in pairwise(needs))
    assert {point.sureness for point in trousers.points} == {Sureness.LAID_OUT}
    assert trousers.laid <= MOST_LAYS


def test_a_step_is_known_to_two_centimetres(trousers: WidthCurve) -> None:
    tenth = Length.from_mm(100)
    for one, other in pairwise(trousers.points):
        if one.need is not None and other.need is not None and one.need - other.need > tenth:
            assert other.usable - one.usable <= Length.from_mm(20)


def test_cloths_on_or_above_the_curve_fit(trousers: WidthCurve) -> None:
    judged = [dot for dot in trousers.dots if not dot.apart]
    assert judged
    for dot in judged:
        point = need_at(trousers.points, dot.at)
        assert point is not None
        assert dot.pairing.need.length == point.need
        if dot.pairing.verdict is not Verdict.UNKNOWN:
            assert point.need is not None
            assert dot.pairing.verdict.can_be_cut == (dot.pairing.have >= point.need)
    assert {dot.pairing.verdict for dot in judged} >= {Verdict.FITS, Verdict.SHORT}


def test_no_lay_of_a_cloth_itself_is_shorter(trousers: WidthCurve, laid_sample: Stash) -> None:
    chambray = next(dot for dot in trousers.dots if dot.cloth.name == "Blue chambray")
    own = lay_make(laid_sample, TROUSERS, cloth="Blue chambray").need.length
    assert own is not None
    assert chambray.pairing.need.length is not None
    assert chambray.pairing.need.length <= own + Length.from_mm(10)
    assert chambray.at == Length.from_mm(1430)


def test_a_cloth_laid_by_itself_needs_no_more_than_on_the_curve(
    trousers: WidthCurve, laid_sample: Stash
) -> None:
    for dot in trousers.dots:
        need = dot.pairing.need.length
        if need is not None and not dot.apart:
            own = lay_make(laid_sample, TROUSERS, cloth=str(dot.cloth.id)).need.length
            assert own is not None
            assert own <= need, dot.cloth.name


def test_a_width_laid_by_itself_needs_what_the_curve_says(skirt: Stash) -> None:
    points = width_curve(skirt, "market").points
    tried = [point for point in points if point.found_at == point.usable]
    assert len(tried) > 10
    for point in tried[::3]:
        width = f"{point.usable.mm + SELVEDGES.mm} mm"
        assert lay_make(skirt, "market", width=width).need.length == point.need


def test_cloths_unlike_a_bare_width_have_a_need_of_their_own(
    trousers: WidthCurve, laid_sample: Stash
) -> None:
    by_name = {dot.cloth.name: dot for dot in trousers.dots}
    cord = by_name["Rust corduroy"]
    assert cord.apart == "nap"
    laid = lay_make(laid_sample, TROUSERS, cloth="Rust corduroy")
    assert laid.nap
    assert cord.pairing.need.length == laid.need.length
    assert (cord.pairing.have, cord.pairing.verdict) == (laid.have, laid.verdict)
    assert "flaws" in by_name["Old bed sheeting"].apart
    assert "no rectangle" in by_name["Seersucker remnant"].apart
    assert "a print to match" in by_name["Brushed check"].apart


def test_the_second_time_nothing_is_laid_out(trousers: WidthCurve, laid_sample: Stash) -> None:
    told: list[int] = []
    again = width_curve(
        laid_sample, TROUSERS, progress=lambda done, _total, _what: told.append(done)
    )
    assert told == []
    assert again == trousers


@pytest.fixture
def skirt(empty_stash: Stash) -> Stash:
    """A make of two flared halves, quick to lay, and a cloth for it."""
    add_pattern(empty_stash, {"name": "quay skirt", "kind": "flared skirt"})
    half = {"name": "half", "waist": "72 cm", "hip": "98 cm", "length": "62 cm"}
    add_piece(empty_stash, "quay skirt", "skirt panel", half | {"sweep": "180 cm"})
    add_make(empty_stash, {"name": "market skirt", "pattern": "quay skirt"})
    linen = {"name": "linen", "structure": "woven", "width": "140 cm", "length": "2 m"}
    add_cloth(empty_stash, linen | {"nap": "yes"})
    return empty_stash


def test_nap_never_needs_less(skirt: Stash) -> None:
    """Pieces that may not be turned head to foot never lie closer (common practice)."""
    free, napped = width_curve(skirt, "market"), width_curve(skirt, "market", nap=True)
    assert [dot.apart for dot in free.dots] == ["nap"]
    assert not any(dot.apart for dot in napped.dots)
    narrow, wide = Length.from_mm(1180), Length.from_mm(2980)
    for width in (narrow, wide):
        without, held = need_at(free.points, width), need_at(napped.points, width)
        assert without is not None
        assert held is not None
        assert without.need is not None
        assert held.need is not None
        assert without.need <= held.need


def test_a_chart_is_read_where_there_are_no_pieces(empty_stash: Stash) -> None:
    add_pattern(empty_stash, {"name": "rowing shorts", "kind": "shorts", "sizes": "40"})
    for width, amount in (("115 cm", "1.3 m"), ("150 cm", "80 cm")):
        row = {"size": "40", "width": width, "amount": amount}
        add_chart_row(empty_stash, "rowing shorts", row)
    curve = width_curve(empty_stash, "rowing shorts")
    assert curve.by_chart
    sure = {point.sureness for point in curve.points if point.need is not None}
    assert sure == {Sureness.CHARTED, Sureness.ESTIMATED}
    needs = [point.need for point in curve.points if point.need is not None]
    assert all(one >= other for one, other in pairwise(needs))
    # Legs are never scaled by area: a block is laid on what is narrower than the chart.
    assert curve.points[0].need is None or curve.points[0].need > Length.from_mm(1300)
    at_132 = need_at(curve.points, Length.from_mm(1300))
    assert at_132 is not None
    assert at_132.need is not None
    assert Length.from_mm(700) < at_132.need <= Length.from_mm(1300)
    # An estimate may be seen: the block's lay, which is said to be no more than that.
    laid = lay_pattern(empty_stash, "rowing shorts", width="132cm")
    assert laid.lay is None
    assert laid.stand_in is not None
    assert {place.name for place in laid.stand_in.lay.placements} == {"front", "back"}
    shown = lay_text(laid, System.METRIC)
    assert "front" in shown
    assert STANDS_IN in shown


def test_a_piece_wider_than_the_cloth_has_no_need_there(empty_stash: Stash) -> None:
    add_pattern(empty_stash, {"name": "sail", "kind": "bag"})
    texts = {"name": "sheet", "width": "150 cm", "length": "60 cm"}
    add_piece(empty_stash, "sail", "rectangle", texts)
    add_make(empty_stash, {"name": "awning", "pattern": "sail"})
    curve = width_curve(empty_stash, "awning")
    first = next(point for point in curve.points if point.need is not None)
    narrower = [point for point in curve.points if point.usable < first.usable]
    assert narrower
    assert all("sheet" in point.why for point in narrower)
    assert first.need is not None
    assert curve.dots == ()


def test_a_piece_too_wide_for_every_cloth_is_named(empty_stash: Stash) -> None:
    add_pattern(empty_stash, {"name": "sail", "kind": "bag"})
    texts = {"name": "sheet", "width": "4 m", "length": "3.5 m"}
    add_piece(empty_stash, "sail", "rectangle", texts)
    with pytest.raises(BadInputError, match="sheet"):
        width_curve(empty_stash, "sail")


def test_stopped_work_is_kept(skirt: Stash) -> None:
    def stop_at_third(done: int, _total: int, _what: str) -> None:
        if done >= 3:
            raise StoppedError("Stopped.")

    with pytest.raises(StoppedError):
        width_curve(skirt, "market", progress=stop_at_third)
    told: list[int] = []

    def tell(done: int, total: int, what: str) -> None:
        assert what
        assert done <= total
        told.append(done)

    width_curve(skirt, "market", progress=tell)
    assert told == sorted(told)
    assert 0 < len(told) <= MOST_LAYS - 2


def test_gone_and_unsuited_cloths_are_left_out(small: Stash) -> None:
    knit = {"name": "soft jersey", "structure": "knit", "width": "150 cm", "length": "3 m"}
    add_cloth(small, knit | {"stretch_across": "40"})
    add_pattern(small, {"name": "vest", "kind": "t-shirt"})
    add_piece(small, "vest", "rectangle", {"name": "body", "width": "50 cm", "length": "60 cm"})
    add_make(small, {"name": "summer vest", "pattern": "vest"})
    assert [dot.cloth.name for dot in width_curve(small, "vest").dots] == ["soft jersey"]
    edit_cloth(small, "soft jersey", {"length": "0 m"})
    assert width_curve(small, "vest").dots == ()
