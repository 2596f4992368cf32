"""Verdicts: right before wide enough, wide enough before long enough."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from pairing_kit import SETTINGS, Book, asking, cloth, cm, fibres, make, pattern, strip

from stash.cloth.record import Flaw, Structure
from stash.garment.pattern import Grain, Kind, Role
from stash.pairing.judgement import Pairing, Sureness, Verdict
from stash.pairing.needs import Needs, missing_problems, question_for
from stash.pairing.verdict import pair
from stash.units.length import ZERO, Length
from stash.units.percent import parse_percent, parse_recovery

if TYPE_CHECKING:
    from stash.cloth.record import Cloth
    from stash.garment.pattern import Pattern

LEGS = (
    strip("front leg", 108, 32, copies=2),
    strip("back leg", 108, 38, copies=2),
)
"""Four legs of 108 cm, two 32 and two 38 wide: side by side they need 140 cm of width."""


def judge(
    one: Cloth | None = None,
    of: Pattern | None = None,
    *,
    book: Book | None = None,
    free: Length | None = None,
    allowance: Length = ZERO,
) -> Pairing:
    judged = one or cloth()
    return pair(
        make(),
        of or pattern(),
        Role.MAIN,
        judged,
        judged.left if free is None else free,
        Needs(book or Book()),
        SETTINGS,
        allowance=allowance,
    )


def test_legs_beside_each_other_or_not() -> None:
    """Any length under 216 cm makes all four cross one line, which takes 140 cm: proof."""
    trousers = pattern(Kind.TROUSERS_TAILORED, LEGS)
    wide = judge(cloth(width=cm(149)), trousers)
    narrow = judge(cloth(width=cm(111)), trousers)
    assert wide.need.length is not None
    assert narrow.need.length is not None
    assert wide.need.length.mm == pytest.approx(1080, abs=0.2)
    assert narrow.need.length.mm == pytest.approx(2160, abs=0.2)
    assert wide.need.sureness is Sureness.LAID_OUT


@pytest.mark.parametrize(
    ("left", "verdict"),
    [
        (95, Verdict.SHORT),
        (100, Verdict.CLOSE),
        (104.9, Verdict.CLOSE),
        (105, Verdict.FITS),
    ],
)
def test_five_centimetres_make_a_fit_comfortable(left: float, verdict: Verdict) -> None:
    assert judge(cloth(left=cm(left))).verdict is verdict


def test_on_long_needs_three_per_cent_is_the_larger_margin() -> None:
    long = pattern(pieces=(strip("train", 300, 100),))
    assert judge(cloth(left=cm(308)), long).verdict is Verdict.CLOSE
    assert judge(cloth(left=cm(309)), long).verdict is Verdict.FITS


def test_a_repeat_adds_to_the_need() -> None:
    """105 cm at a repeat of 32 cm is cut as 128, and one repeat more is ordered, as the print
    may start anywhere: 160 cm (worked example of furnishing calculators)."""
    long = pattern(pieces=(strip("panel", 105, 40),))
    printed = judge(cloth(left=cm(159), repeat_length=cm(32)), long)
    assert printed.need.length == cm(160)
    assert printed.verdict is Verdict.SHORT
    assert judge(cloth(left=cm(165), repeat_length=cm(32)), long).verdict is Verdict.FITS


def test_a_lining_need_not_match() -> None:
    long = pattern(pieces=(strip("panel", 105, 40, role=Role.LINING),))
    lining = cloth(left=cm(165), repeat_length=cm(32))
    found = pair(make(), long, Role.LINING, lining, lining.left, Needs(Book()), SETTINGS)
    assert found.need.length == cm(105)


def test_washing_takes_its_share_first() -> None:
    """Net 2.00 m at 5 % takes 2.1053 m, not 2.10 m: length is net / (1 - s)."""
    two_metres = pattern(pieces=(strip("panel", 200, 100),))
    raw = cloth(washed=False, shrink_length=5.0, shrink_width=4.0, left=cm(210))
    short = judge(raw, two_metres)
    assert short.verdict is Verdict.SHORT
    assert short.cut_from_shelf is not None
    assert short.cut_from_shelf.mm == pytest.approx(2105.263, abs=0.001)
    assert short.have == cm(199.5)
    assert short.spare == cm(-0.5)


def test_width_is_what_washing_leaves() -> None:
    """150 cm with 1 cm selvedges and 4 % weft shrinkage leaves 142.08 cm."""
    raw = cloth(washed=False, shrink_length=5.0, shrink_width=4.0, width=cm(150))
    question = question_for(make(), pattern(), Role.MAIN, raw)
    assert question.width == cm(142.08)
    assert judge(raw, pattern(pieces=(strip("panel", 50, 142),))).verdict.can_be_cut
    assert judge(raw, pattern(pieces=(strip("panel", 50, 142.05),))).verdict is Verdict.TOO_NARROW


def test_too_narrow_names_the_piece() -> None:
    found = judge(cloth(width=cm(92)), pattern(pieces=(strip("whole back", 70, 95),)))
    assert found.verdict is Verdict.TOO_NARROW
    assert found.need.too_narrow == "whole back"
    assert found.suit == 0
    assert any("whole back" in reason.sentence for reason in found.reasons)


def test_stretch_is_a_gate() -> None:
    """10 cm to 13 cm is 30 % and the pattern needs 35 % (4 in to 5.4 in): rejected."""
    asked = pattern(asks=asking(stretch_across=parse_percent("4 in to 5.4 in")))
    knit = {"structure": Structure.KNIT}
    short = judge(cloth(stretch_across=parse_percent("10 to 13 cm"), **knit), asked)
    assert short.verdict is Verdict.UNSUITED
    assert short.suit == 0
    enough = judge(cloth(stretch_across=parse_percent("10 to 13.5 cm"), **knit), asked)
    assert enough.verdict.can_be_cut


def test_recovery_marks_down_what_stays_stretched() -> None:
    """10 cm, stretched to 15, rests at 10.4: recovery 92 % (ASTM D3107 definitions)."""
    back = parse_recovery("10 to 15 to 10.4 cm")
    assert back == pytest.approx(92)
    asked = pattern(asks=asking(recovery=90.0))
    springy = judge(cloth(recovery=back), asked)
    slack = judge(cloth(recovery=75.0), asked)
    assert mark(springy, "recovery") == 1
    assert slack.suit < springy.suit


def mark(pairing: Pairing, factor: str) -> float | None:
    return next(reason.mark for reason in pairing.reasons if reason.factor == factor)


def test_what_is_not_measured_is_asked_for_and_not_held_against_it() -> None:
    asked = pattern(asks=asking(stretch_across=35.0, recovery=90.0, weight_low=100.0))
    found = judge(cloth(structure=Structure.KNIT, weight=None), asked)
    assert found.verdict is Verdict.UNKNOWN
    assert found.suit == judge(cloth(structure=Structure.KNIT), pattern(asks=asking())).suit
    said = {reason.factor: reason for reason in found.reasons}
    assert said["stretch across"].mark is None
    assert "13.5 cm" in said["stretch across"].sentence
    assert said["weight"].mark is None
    assert found.spare is not None


def test_rigid_woven_needs_no_measuring_to_fail_a_stretch_ask() -> None:
    asked = pattern(asks=asking(stretch_across=35.0))
    assert judge(cloth(), asked).verdict is Verdict.UNSUITED
    stretchy = cloth(fibres=fibres("cotton 97 elastane 3"))
    assert judge(stretchy, asked).verdict is Verdict.UNKNOWN


def test_unsuited_is_said_first_and_nothing_is_laid_out() -> None:
    book = Book()
    found = judge(
        cloth(structure=Structure.KNIT, width=cm(30)),
        pattern(asks=asking(structures=(Structure.WOVEN,))),
        book=book,
    )
    assert found.verdict is Verdict.UNSUITED
    assert found.need.length is None
    assert not book.lays


def test_nap_where_the_pattern_rules_it_out() -> None:
    asked = pattern(asks=asking(nap_allowed=False))
    assert judge(cloth(nap=True), asked).verdict is Verdict.UNSUITED
    assert judge(cloth(nap=False), asked).verdict is Verdict.FITS


def test_no_pieces_and_no_chart_is_unknown() -> None:
    bare = pattern()
    found = judge(cloth(), type(bare)(id=1, name="Bare", kind=Kind.SHIRT))
    assert found.verdict is Verdict.UNKNOWN
    assert "no pieces" in found.need.why


def test_remnant_without_room_is_short() -> None:
    corner = ((0.0, 0.0), (600.0, 0.0), (600.0, 500.0), (0.0, 500.0))
    found = judge(cloth(outline=corner, left=cm(60)))
    assert found.verdict is Verdict.SHORT
    assert found.need.no_room == "front"
    assert found.spare is None


def test_a_flaw_costs_length() -> None:
    piece = pattern(pieces=(strip("panel", 100, 130),))
    sound = judge(cloth(), piece)
    flawed = judge(cloth(flaws=(Flaw(500, 700, 20),)), piece)
    assert sound.need.length is not None
    assert flawed.need.length is not None
    assert flawed.need.length.mm >= sound.need.length.mm + 500


def test_the_same_question_is_laid_out_once() -> None:
    book = Book()
    almost = Length(cm(142).nm + 300_000)
    cloths = [cloth(id=1), cloth(id=2, left=cm(50)), cloth(id=3, width=almost)]
    questions = [question_for(make(), pattern(), Role.MAIN, each) for each in cloths]
    assert len(missing_problems(questions, book)) == 1
    for each in cloths:
        judge(each, book=book)
    assert len(book.lays) == 1
    assert missing_problems(questions, book) == ()


def test_letting_out_is_added_to_the_need() -> None:
    plain, let_out = judge(), judge(allowance=cm(5))
    assert plain.need.length is not None
    assert let_out.need.length == plain.need.length + cm(5)


def test_crosswise_pieces_lie_across() -> None:
    band = pattern(pieces=(strip("waistband", 80, 8, grain=Grain.CROSSWISE, mirrored=False),))
    found = judge(cloth(nap=True), band)
    assert found.need.length is not None
    assert found.need.length.mm == pytest.approx(80, abs=0.2)


def test_nothing_free_is_short_by_all_of_it() -> None:
    found = judge(free=ZERO)
    assert found.verdict is Verdict.SHORT
    assert found.spare is not None
    assert found.spare.mm == pytest.approx(-1000, abs=0.2)
