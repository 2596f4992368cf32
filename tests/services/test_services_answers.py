"""Lays, pairings, plans and buying lists of a small stash."""

from __future__ import annotations

from dataclasses import replace
from multiprocessing import active_children
from typing import TYPE_CHECKING

import pytest
from outside_view import legal

from stash.errors import BadInputError, NotFoundError, StoppedError
from stash.lay.exchange import lay_from_json, lay_to_json
from stash.lay.key import problem_key
from stash.lay.problem import LayKind
from stash.pairing.judgement import Sureness, Verdict
from stash.pairing.needs import Question, problem_of
from stash.services import bench, buying, laying, planning, promises
from stash.services.cloths import add_cloth, edit_cloth
from stash.services.laybook import NO_LAY
from stash.services.makes import add_make, edit_make
from stash.services.muslin import muslin_for, pair_and_advise
from stash.services.pairing import become, pair_make
from stash.services.patterns import add_chart_row, add_pattern, add_piece
from stash.services.solving import prepared
from stash.store import lays
from stash.units.length import ZERO, Length

if TYPE_CHECKING:
    from stash.report.records import LaidOut
    from stash.services.stash import Stash


def sound(laid: LaidOut) -> None:
    """The lay is legal, looked at from outside with shapely."""
    assert laid.lay is not None
    legal(laid.lay)


def test_a_lay_is_legal_and_kept(small: Stash) -> None:
    laid = laying.lay_make(small, "rain", cloth="olive")
    sound(laid)
    assert laid.lay is not None
    assert sorted(p.name for p in laid.lay.placements) == ["back", "back", "front", "front"]
    assert laid.verdict is Verdict.FITS
    assert laid.have == Length.from_mm(1900)  # washed: nothing to come
    assert laid.lay == laying.lay_make(small, "rain", cloth="olive").lay


def test_open_is_never_longer_than_folded(small: Stash) -> None:
    opened = laying.lay_make(small, "rain", cloth="olive", kind=LayKind.OPEN)
    folded = laying.lay_make(small, "rain", cloth="olive", kind=LayKind.FOLDED)
    sound(opened)
    sound(folded)
    assert opened.lay is not None
    assert folded.lay is not None
    assert opened.lay.need <= folded.lay.need + 0.01
    assert folded.lay.folds == pytest.approx((folded.lay.width / 2,), abs=0.05)


def test_nothing_is_turned_under_nap(small: Stash) -> None:
    laid = laying.lay_make(small, "rain", width="150 cm", nap=True)
    assert laid.lay is not None
    assert {p.turn for p in laid.lay.placements} == {0}


def test_trousers_are_a_step_function_of_width(small: Stash) -> None:
    """All four legs side by side take one length, otherwise about two.

    Published garment yardage chart: full-length pants on 35-36 in against 58-60 in cloth.
    """
    leg = 1.16  # metres: finished 104 cm, casing and hem added
    wide = laying.lay_make(small, "rain", width="190 cm").need.length
    narrow = laying.lay_make(small, "rain", width="100 cm").need.length
    assert wide is not None
    assert narrow is not None
    assert wide.mm / 1000 < 1.1 * leg
    assert 1.7 * leg < narrow.mm / 1000 < 2.1 * leg


def test_an_unwashed_cloth_is_cut_longer(small: Stash) -> None:
    """Before washing a length is net over one less the shrinkage, never net times one plus."""
    shrink = {"washed": "no", "shrink_length": "10 %", "shrink_width": "0 %"}
    edit_cloth(small, "olive", shrink)
    laid = laying.lay_make(small, "rain", cloth="olive")
    assert laid.need.length is not None
    assert laid.cut_from_shelf is not None
    assert laid.cut_from_shelf.mm == pytest.approx(laid.need.length.mm / 0.9, abs=0.001)


def test_a_pattern_is_laid_by_its_name(small: Stash) -> None:
    laid = laying.lay_any(small, "easy", width="132cm")
    assert (laid.make, laid.size) == (None, "42")
    assert laid.usable_width == Length.from_mm(1300)
    sound(laid)
    with pytest.raises(BadInputError, match="On what"):
        laying.lay_any(small, "easy")
    with pytest.raises(NotFoundError):
        laying.lay_any(small, "nothing", width="1 m")
    with pytest.raises(BadInputError, match="no size '7'"):
        laying.lay_any(small, "easy", width="1 m", size="7")


@pytest.mark.parametrize("width", ["20 cm", "1 cm", "wide", "-140 cm"])
def test_a_width_that_will_not_do_is_one_sentence(small: Stash, width: str) -> None:
    with pytest.raises(BadInputError) as caught:
        laying.lay_make(small, "rain", width=width)
    assert caught.value.message
    assert caught.value.hint


def test_a_chart_answers_where_there_are_no_pieces(small: Stash) -> None:
    add_pattern(small, {"name": "charted coat", "kind": "coat", "sizes": "M"})
    row = {"size": "M", "width": "140 cm", "amount": "3.2 m"}
    add_chart_row(small, "charted coat", row)
    laid = laying.lay_any(small, "charted", width="140 cm")
    assert (laid.lay, laid.need.sureness) == (None, Sureness.CHARTED)
    assert laid.need.length == Length.from_mm(3200)


def test_a_plan_trusts_no_kept_lay_unseen(small: Stash) -> None:
    """A plan reads how long the kept lays are, no more; what it shows is checked whole."""
    before = planning.season_plan(small)
    with small.write("tamper") as session:
        for key, (engine, text) in lays.all_lay_texts(session).items():
            if text != NO_LAY:
                short = replace(lay_from_json(text), need=10.0)
                lays.put_lay_text(session, key, engine, lay_to_json(short))
    after = planning.season_plan(small)
    shown = [r.pairing.need.length for r in before.roles if r.pairing is not None]
    assert any(shown)
    assert [r.pairing.need.length for r in after.roles if r.pairing is not None] == shown


def test_a_kept_lay_that_breaks_the_rules_is_never_shown(small: Stash) -> None:
    """A lay someone tampered with, or an older engine got wrong, is worked out anew."""
    good = laying.lay_make(small, "rain", cloth="olive")
    assert good.lay is not None
    assert good.problem is not None
    first, *rest = good.lay.placements
    moved = replace(first, polygon=tuple((x, y - 50) for x, y in first.polygon))
    bad = replace(good.lay, placements=(moved, *rest), need=900.0)
    key = problem_key(good.problem, None, small.settings.seed)
    with small.read() as session:
        assert lays.get_lay_text(session, key) is not None
    with small.write("tamper") as session:
        lays.put_lay_text(session, key, "1", lay_to_json(bad))
    again = laying.lay_make(small, "rain", cloth="olive")
    assert again.need.length == good.need.length
    assert pair_make(small, "rain")[0].need.length == good.need.length
    with small.write("spoil") as session:
        lays.put_lay_text(session, key, "1", "no lay at all")
    assert laying.lay_make(small, "rain", cloth="olive").need.length == good.need.length


def test_pairings_come_best_first(small: Stash) -> None:
    best, worst = pair_make(small, "rain")
    assert (best.verdict, worst.verdict) == (Verdict.FITS, Verdict.SHORT)
    assert best.spare is not None
    assert worst.spare is not None
    assert best.spare > ZERO > worst.spare
    (only,) = become(small, "olive")
    assert only == best
    with pytest.raises(BadInputError, match="no lining"):
        pair_make(small, "rain", "lining")
    with pytest.raises(BadInputError, match="not a role"):
        pair_make(small, "rain", "sleeve")


def test_a_make_pairs_with_its_own_promise_but_not_with_others(small: Stash) -> None:
    add_make(small, {"name": "second pair", "pattern": "easy", "size": "40"})
    promises.promise(small, "rain", None, "olive")
    assert pair_make(small, "rain")[0].verdict is Verdict.FITS
    assert pair_make(small, "second")[0].verdict is Verdict.SHORT


def test_the_plan_gives_the_cloth_and_lists_what_is_short(small: Stash) -> None:
    add_make(small, {"name": "second pair", "pattern": "easy", "size": "40", "priority": "5"})
    book = planning.plan_book(small)
    assert book.plan.proven
    given = {role.make_id: role.pairing for role in book.plan.roles}
    taken = [pairing for pairing in given.values() if pairing is not None]
    assert [book.cloths[p.cloth_id].name for p in taken] == ["olive cord"]
    (line,) = book.buying.cloths
    assert line.make != book.makes[taken[0].make_id].name
    amounts = [one.length for one in line.shortfall.widths]
    assert all(amount is not None and amount.mm % 100 == 0 for amount in amounts)  # shop's step
    assert line.best is not None
    (row, other) = bench.bench(small, book.plan)
    assert [row.ready, other.ready].count(True) == 1
    assert buying.buying_list(small, book.plan) == book.buying


def test_a_promise_changes_the_buying_list(small: Stash) -> None:
    add_cloth(small, {"name": "twill", "structure": "woven", "width": "150 cm", "length": "1.5 m"})
    before = buying.buying_list(small)
    assert before.cloths == ()
    add_make(small, {"name": "second pair", "pattern": "easy", "size": "40"})
    promises.promise(small, "rain", None, "olive")
    promises.promise(small, "second", None, "twill")
    add_make(small, {"name": "third pair", "pattern": "easy", "size": "40"})
    assert [line.make for line in buying.buying_list(small).cloths] == ["third pair"]


def test_muslin_leaves_the_intended_cloth_alone(small: Stash) -> None:
    twill = {"name": "old twill", "structure": "woven", "width": "150 cm", "length": "2.6 m"}
    add_cloth(small, {**twill, "loved": "1", "weight": "280 gsm", "washed": "yes"})
    promises.promise(small, "rain", None, "olive")
    (found,) = muslin_for(small, "rain")
    assert found.pairing.verdict.can_be_cut
    assert 0 <= found.score <= 1
    with small.read() as session:
        from stash.store.cloths import get_cloth

        assert get_cloth(session, found.pairing.cloth_id).name == "old twill"


def test_a_loved_cloth_comes_with_the_advice_to_test_first(small: Stash) -> None:
    twill = {"name": "old twill", "structure": "woven", "width": "150 cm", "length": "2.6 m"}
    add_cloth(small, {**twill, "loved": "1", "weight": "280 gsm", "washed": "yes"})
    assert all(pairing.muslin_first is None for pairing in pair_and_advise(small, "rain"))
    edit_cloth(small, "olive", {"loved": "5"})
    by_cloth = {pairing.cloth_id: pairing for pairing in pair_and_advise(small, "rain")}
    advice = by_cloth[1].muslin_first
    assert advice is not None
    assert advice.cloth_ids == (3,)
    assert "olive cord is too well loved for easy trousers" in advice.why
    assert by_cloth[3].muslin_first is None
    add_make(small, {"name": "trial", "pattern": "easy trousers", "size": "42", "muslin": "yes"})
    edit_make(small, "trial", {"muslin_for": "rain trousers"})
    assert all(pairing.muslin_first is None for pairing in pair_and_advise(small, "rain"))


def test_the_price_of_a_muslin_is_what_the_queue_loses(small: Stash) -> None:
    twill = {"name": "old twill", "structure": "woven", "width": "150 cm", "length": "1.4 m"}
    add_cloth(small, {**twill, "loved": "1", "weight": "280 gsm", "washed": "yes"})
    promises.promise(small, "rain", None, "olive")
    (alone,) = muslin_for(small, "rain")
    assert alone.price == 0
    add_make(small, {"name": "garden trousers", "pattern": "easy trousers", "size": "42"})
    (wanted,) = muslin_for(small, "rain")
    assert wanted.price is not None
    assert wanted.price > 0
    assert wanted.score < alone.score
    assert any("garden trousers, main, would have to be bought for" in why for why in wanted.why)


def _several(stash: Stash) -> list[Question]:
    from stash.services.whole import read_whole

    whole = read_whole(stash)
    (make,) = whole.makes.values()
    return [
        Question(
            make=make,
            pattern=whole.pattern_of(make),
            role=whole.roles_of(make)[0],
            width=Length.from_mm(width),
            nap=False,
        )
        for width in (900, 1000, 1100, 1200, 1300)
    ]


def test_many_lays_are_worked_out_in_other_processes_and_kept(small: Stash) -> None:
    told: list[tuple[int, int]] = []
    questions = _several(small)
    prepared(small, questions, progress=lambda done, total, _: told.append((done, total)))
    assert told == [(n, 5) for n in range(1, 6)]
    told.clear()
    needs = prepared(small, questions, progress=lambda done, total, _: told.append((done, total)))
    assert told == []
    for question in questions:
        lay = needs.answer(question).lay
        assert lay is not None
        assert problem_of(question).width == lay.width


def test_stopping_keeps_what_was_found(small: Stash) -> None:
    told: list[int] = []

    def hear(done: int, total: int, what: str) -> None:
        told.append(done)

    with pytest.raises(StoppedError):
        prepared(small, _several(small), progress=hear, cancelled=lambda: bool(told))
    told.clear()
    prepared(small, _several(small), progress=lambda _, total, __: told.append(total))
    assert told
    assert told[0] < 5


def test_ctrl_c_keeps_what_was_found_and_waits_for_nothing(small: Stash) -> None:
    def press(done: int, total: int, what: str) -> None:
        raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        prepared(small, _several(small), progress=press)
    assert active_children() == []
    told: list[int] = []
    prepared(small, _several(small), progress=lambda _, total, __: told.append(total))
    assert told[0] == 4


def test_two_stashes_find_the_same_lay(small: Stash) -> None:
    add_piece(small, "easy", "band", {"name": "waistband", "length": "1 m", "width": "8 cm"})
    one = laying.lay_make(small, "rain", width="120 cm").lay
    with small.write("forget") as session:
        lays.clear_lays(session)
    other = laying.lay_make(small, "rain", width="120 cm").lay
    assert one is not None
    assert other is not None
    assert one.placements == other.placements


def test_a_size_the_chart_does_not_speak_of_is_named(small: Stash) -> None:
    add_pattern(small, {"name": "Mole", "kind": "blouse", "sizes": "38, 40"})
    add_chart_row(small, "Mole", {"size": "40", "width": "45in", "amount": "2 1/4 yd"})
    add_make(small, {"name": "small one", "pattern": "Mole", "size": "38"})
    with pytest.raises(BadInputError) as refused:
        pair_make(small, "small one")
    assert refused.value.message == (
        "Mole has neither pieces nor a chart for size 38, only for size 40."
    )
    assert 'stash pattern chart "Mole" size="38" width=' in refused.value.hint
    add_chart_row(small, "Mole", {"size": "38", "width": "140cm", "amount": "2.4 m"})
    assert len(pair_make(small, "small one")) == 2
