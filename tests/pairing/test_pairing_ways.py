"""Ways to make it fit: what each does to pieces, and which combination is found.

Lengths of lays are worked out by hand: rectangles side by side on a strip.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Any

import pytest
from pairing_kit import SETTINGS, Book, cloth, cm, make, pattern, strip

from stash.cloth.record import Structure
from stash.config import System
from stash.garment.make import Person
from stash.garment.pattern import Kind, Role, Size
from stash.garment.sizing import middle_size
from stash.geometry.recut import in_two, shortened, trimmed, with_strip
from stash.geometry.ring import bounds, signed_area
from stash.intake.stash_folder import read_stash_folder
from stash.lay.check import check
from stash.lay.problem import LayKind
from stash.lay.solve import solve
from stash.lay.validate import validate
from stash.pairing.needs import Needs, problem_of, question_for
from stash.pairing.ways.carry import carried
from stash.pairing.ways.cut import (
    Cut,
    Way,
    first_cut,
    with_centre_seam,
    with_less_seam,
    without,
)
from stash.pairing.ways.donors import distance, insides
from stash.pairing.ways.freer import FREER
from stash.pairing.ways.offer import LeftOut, Setting, Wishes, applied, offers
from stash.paths import sample_dir
from stash.trade.part_words import Part, part_of
from stash.trade.ways import WayKind

if TYPE_CHECKING:
    from stash.cloth.record import Cloth
    from stash.garment.pattern import Pattern, Piece


def setting(one: Cloth, pieces: tuple[Piece, ...] = (), **more: Any) -> Setting:
    design: Pattern = more.pop("design", None) or pattern(Kind.DRESS, pieces)
    sewn = more.pop("sewn", None) or make()
    wishes = more.pop("wishes", Wishes())
    question = question_for(sewn, design, design.pieces[0].role, one)
    return Setting(
        question=question,
        cloth=one,
        person=more.pop("person", None),
        wishes=wishes,
        settings=SETTINGS,
    )


def offered(where: Setting, kind: WayKind) -> list[Way]:
    return [way for way in offers(where)[0] if way.kind is kind]


def need(cut: Cut) -> float:
    length = Needs(Book()).answer(cut.question).length
    assert length is not None
    return length.mm


def wide(usable: float, **more: Any) -> Cloth:
    """A washed cloth of so many usable cm."""
    return cloth(width=cm(usable + 2), **more)


def test_a_centre_seam_adds_an_allowance_on_either_side() -> None:
    half = ((0.0, 0.0), (600.0, 0.0), (600.0, 400.0), (0.0, 400.0))
    assert bounds(with_strip(half, 15)) == (0, 0, 600, 415)
    assert abs(signed_area(with_strip(half, 15))) == 600 * 415


def test_one_centre_seam_saves_a_row() -> None:
    # Three panels 80 x 60 cm on 125 cm: one to a row, 180 cm. One of them in halves of
    # 41.5 x 60 cm: a panel and a half to a row (121.5 cm), 120 cm.
    panels = tuple(strip(name, 60, 40, on_fold=True) for name in ("front", "back", "panel"))
    where = setting(wide(125), panels)
    assert need(where.cut) == pytest.approx(1800)
    ways = {way.name: way for way in offered(where, WayKind.CENTRE)}
    back = ways["Back with a centre seam"]
    assert back.cost < ways["Panel with a centre seam"].cost
    assert back.cost < ways["Front with a centre seam"].cost
    assert need(applied(where.cut, [back])) == pytest.approx(1200)


def test_a_fold_edge_may_stray_by_a_hair() -> None:
    # Files are read to within a hair; the lay takes such an edge as straight, so the seam does.
    ring = ((0.0, 0.0), (300.0, 0.004), (600.0, 0.0), (600.0, 400.0), (0.0, 400.0))
    (half,) = with_centre_seam(strip("back", 60, 40, on_fold=True, outline=ring), 15) or ()
    assert bounds(half.outline)[3] == 415
    assert abs(signed_area(half.outline)) == pytest.approx(600 * 415)
    lost = replace(half, on_fold=True, outline=tuple((x, y + 9) for x, y in ring))
    assert with_centre_seam(lost, 15) is None
    assert with_less_seam(replace(lost, seam=15.0), 10) is None


def test_a_waistband_across_lies_above_the_panel() -> None:
    # A panel as wide as the cloth, 60 cm; the waistband 80 x 8 cm: 140 cm lengthwise, 68 across.
    where = setting(wide(90), (strip("skirt", 60, 90), strip("waistband", 80, 8)))
    assert need(where.cut) == pytest.approx(1400)
    (way,) = offered(where, WayKind.CROSSWISE)
    assert need(applied(where.cut, [way])) == pytest.approx(680)


def test_visible_pieces_are_not_turned_on_nap_or_on_knits() -> None:
    pieces = (strip("skirt", 60, 90), strip("waistband", 80, 8), strip("hem facing", 50, 8))
    assert [w.name for w in offered(setting(wide(90, nap=True), pieces), WayKind.CROSSWISE)] == [
        "Hem facing crosswise"
    ]
    knit = wide(90, structure=Structure.KNIT)
    assert not offered(setting(knit, pieces), WayKind.CROSSWISE)


def test_a_waistband_in_two_parts() -> None:
    # 80 cm in two of 40 + 1.5 cm each; beside each other under a panel of 90 x 60: 60 + 41.5.
    where = setting(wide(90), (strip("skirt", 60, 90), strip("waistband", 80, 8)))
    (way,) = offered(where, WayKind.PIECING)
    cut = applied(where.cut, [way])
    assert [bounds(p.outline)[2] for p in cut.pieces] == [600, 415, 415]
    assert need(cut) == pytest.approx(1015)


def test_a_seam_across_wants_two_whole_parts() -> None:
    # A horseshoe with its ends to the cut falls into three.
    shoe = ((0, 0), (300, 0), (300, 40), (40, 40), (40, 60), (300, 60), (300, 100), (0, 100))
    assert in_two(tuple((float(x), float(y)) for x, y in shoe), 15) is None


def test_a_shorter_panel_keeps_both_ends() -> None:
    flare = ((0.0, 0.0), (1000.0, 0.0), (1000.0, 500.0), (0.0, 300.0))
    ring = shortened(flare, 60)
    assert ring is not None
    assert bounds(ring) == (0, 0, 940, 500)
    assert {(940.0, 500.0), (0.0, 300.0)} <= set(ring)
    assert shortened(flare, 190) is None  # more than the middle holds


def test_length_goes_in_steps_as_far_as_the_garment_stays_itself() -> None:
    # The front of 60 cm fills the width, so the lay is shorter by just what it gives up.
    metric = setting(wide(90), (strip("front", 60, 80),))
    steps = offered(metric, WayKind.LENGTH)
    assert [need(applied(metric.cut, [way])) for way in steps[:2]] == pytest.approx([590, 580])
    assert len(steps) == 6  # a dress gives up 6 cm at most (house rule), by 1 cm
    assert [way.cost for way in steps] == pytest.approx([0.75 * k for k in range(1, 7)])


def test_seam_allowances_where_they_are_known() -> None:
    # 15 mm down to 10: a piece of 100 x 40 cm loses 5 mm at each of its four edges; one on the
    # fold keeps its fold edge.
    ring = ((0.0, 0.0), (1000.0, 0.0), (1000.0, 400.0), (0.0, 400.0))
    plain, folded = trimmed(ring, 5, on_fold=False), trimmed(ring, 5, on_fold=True)
    assert plain is not None
    assert folded is not None
    assert bounds(plain) == (5, 5, 995, 395)
    assert bounds(folded) == (5, 0, 995, 395)
    unknown = setting(wide(90), (strip("front", 100, 40),))
    assert not offered(unknown, WayKind.SEAM)
    assert any(one.kind is WayKind.SEAM for one in offers(unknown)[1])
    told = setting(wide(90), (strip("front", 100, 40),), wishes=Wishes(seam=cm(1.5)))
    (way,) = offered(told, WayKind.SEAM)
    assert need(applied(told.cut, [way])) == pytest.approx(990)


def test_nap_is_ignored_only_when_she_says_so() -> None:
    velvet = wide(90, nap=True)
    kept = setting(velvet, (strip("front", 60, 80),))
    assert not offered(kept, WayKind.NAP)
    assert any(one.kind is WayKind.NAP for one in offers(kept)[1])
    (way,) = offered(setting(velvet, kept.cut.pieces, wishes=Wishes(ignore_nap=True)), WayKind.NAP)
    assert not applied(kept.cut, [way]).question.nap


def test_a_smaller_size_only_where_ease_is_left() -> None:
    # Least ease at the hip 2 in = 5.08 cm (NMSU Guide C-209): 97 + 5.08 = 102.08 cm.
    def pants(finished: float) -> Setting:
        sizes = (
            Size(label="S", finished=(("hip", cm(finished)),)),
            Size(label="M", finished=(("hip", cm(110)),)),
        )
        pieces = (strip("front", 90, 40, size="S"), strip("front", 100, 44, size="M"))
        person = Person(name="Ottoline", measures=(("hip_girth", cm(97)),))
        design = pattern(Kind.SKIRT_STRAIGHT, pieces, sizes=sizes)
        return setting(wide(90), design=design, person=person)

    (way,) = offered(pants(102.1), WayKind.SIZE)
    assert need(applied(pants(102.1).cut, [way])) == pytest.approx(900)
    assert not offered(pants(102.0), WayKind.SIZE)


def test_what_she_always_takes_out_costs_nothing() -> None:
    where = setting(wide(90), (strip("front", 60, 80),), wishes=Wishes(shorter=cm(4)))
    (way,) = offered(where, WayKind.ALTERATION)
    assert way.cost == 0
    assert need(applied(where.cut, [way])) == pytest.approx(560)


def test_a_short_inside_leg_is_an_alteration() -> None:
    size = Size(label="M", body=(("inside_leg_height", cm(78)),))
    person = Person(name="Wren", measures=(("inside leg height", cm(75)),))
    design = pattern(Kind.TROUSERS_ELASTIC, (strip("front", 100, 40),), sizes=(size,))
    (way,) = offered(setting(wide(90), design=design, person=person), WayKind.ALTERATION)
    assert way.name == "For Wren 3 cm shorter"


def test_another_kind_of_lay_only_where_one_was_asked() -> None:
    where = setting(wide(90), (strip("front", 60, 80),))
    assert not offered(where, WayKind.LAY)
    folded = replace(where, question=replace(where.question, kind=LayKind.FOLDED))
    (way,) = offered(folded, WayKind.LAY)
    assert applied(folded.cut, [way]).question.kind is None


def test_ruled_out_kinds_are_not_offered() -> None:
    wishes = Wishes(barred=frozenset({WayKind.LENGTH}))
    ways, left = offers(setting(wide(90), (strip("front", 60, 80),), wishes=wishes))
    assert all(way.kind is not WayKind.LENGTH for way in ways)
    assert LeftOut(kind=WayKind.LENGTH, why="You ruled it out.") in left


def test_half_of_the_collar_comes_from_a_donor() -> None:
    pieces = (
        *(strip("front", 60, 40), strip("collar", 30, 10, on_fold=True, copies=2)),
        *(strip("yoke", 30, 20, copies=2), strip("front facing", 50, 8, copies=2)),
    )
    cut = first_cut(setting(wide(90), pieces).question)
    found = {one.part: one for one in insides(cut)}
    # A yoke cut as one mirrored pair is a left and a right half: nothing of it lies inside.
    assert set(found) == {Part.FACING, Part.COLLAR}
    collar = without(cut, found[Part.COLLAR].names, 7, half=True)
    assert [p.copies for p in collar.pieces] == [1, 1, 2, 2]
    assert [(p.name, p.copies) for p in collar.given[7]] == [("collar", 1)]
    facing = without(cut, found[Part.FACING].names, 7, half=False)
    assert [p.name for p in facing.pieces] == ["front", "collar", "yoke"]


def test_a_donor_is_told_by_colour_and_weight() -> None:
    # Navy #000080 and midnight #191970 are 5.55 apart by CIEDE2000 (worked with Sharma, Wu and
    # Dalal's formula of 2005); 200 g/m2 is a third heavier than 150.
    apart = distance(cloth(colour="#000080", weight=150.0), cloth(colour="#191970", weight=200.0))
    assert apart.colour == pytest.approx(5.55, abs=0.01)
    assert apart.weight == pytest.approx(33.3, abs=0.1)


@pytest.mark.parametrize(
    ("name", "part"),
    [
        ("bib facing", Part.FACING),
        ("front neck facing", Part.FACING),
        ("collar stand", Part.STAND),
        ("under collar", Part.COLLAR),
        ("back pocket", Part.POCKET),
        ("pocket bag", Part.POCKET_BAG),
        ("trouser front", Part.LEG),
        ("top back", Part.BODY),
        ("Kragensteg", Part.STAND),
        ("fond de poche", Part.POCKET_BAG),
        ("backing", None),
    ],
)
def test_pieces_are_known_by_their_names(name: str, part: Part | None) -> None:
    # Common practice.
    assert part_of(name) is part


def test_a_lay_is_carried_over_to_smaller_pieces() -> None:
    where = setting(wide(90), (strip("front", 60, 80, copies=2), strip("hem facing", 50, 8)))
    old = problem_of(where.cut.question)
    lay = solve(old)
    for kind in (WayKind.LENGTH, WayKind.CROSSWISE):
        cut = applied(where.cut, offered(where, kind)[:1])
        new = problem_of(cut.question)
        found = carried(old, lay, new)
        assert found is not None
        assert found.need <= lay.need
        assert not check(new, found)
    wider = setting(wide(90), (strip("front", 61, 80, copies=2), strip("hem facing", 50, 8)))
    tight = carried(old, lay, problem_of(wider.cut.question))
    assert tight is None or not check(problem_of(wider.cut.question), tight)


def test_steps_follow_the_setting() -> None:
    where = setting(wide(90), (strip("front", 60, 80),))
    inches = replace(where, settings=replace(SETTINGS, system=System.IMPERIAL))
    assert [way.name for way in offered(inches, WayKind.LENGTH)][:2] == [
        "1/2 in shorter",
        "1 in shorter",
    ]


def test_every_way_leaves_the_samples_pieces_whole() -> None:
    """Real outlines, curves and all: no way makes an outline the lay would refuse, and ways that
    only take cloth away do."""
    tried: set[WayKind] = set()
    for design in read_stash_folder(sample_dir()).patterns:
        for view in design.views or ("",):
            size = middle_size(design)
            if not design.pieces_for(view, size, Role.MAIN):
                continue
            where = setting(
                wide(300, nap=True),
                design=design,
                sewn=make(view=view, size=size),
                wishes=Wishes(seam=cm(1.5), shorter=cm(2), ignore_nap=True),
            )
            for way in offers(where)[0]:
                cut = applied(where.cut, [way])
                validate(problem_of(cut.question))
                tried.add(way.kind)
                if way.kind in FREER:
                    assert cut.area <= where.cut.area
    assert tried >= {*FREER, WayKind.CENTRE, WayKind.PIECING, WayKind.VIEW} - {
        WayKind.LAY,
        WayKind.DONOR,
    }
