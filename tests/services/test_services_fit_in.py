"""Ways to make it fit, on a stash: hand-computed rectangles, and every combination tried."""

from __future__ import annotations

from dataclasses import replace
from itertools import chain, combinations
from random import Random
from typing import TYPE_CHECKING

import pytest

from stash.errors import BadInputError, StoppedError
from stash.garment.pattern import Role
from stash.lay.check import check
from stash.pairing.needs import Needs, question_for
from stash.pairing.verdict import margin_of
from stash.pairing.ways.cut import first_cut
from stash.pairing.ways.offer import applied
from stash.services.cloths import add_cloth
from stash.services.fit_in import fit_in, wishes_of
from stash.services.laybook import StashLays
from stash.services.makes import add_make
from stash.services.patterns import add_pattern, add_piece
from stash.services.whole import read_whole
from stash.trade.ways import WayKind

if TYPE_CHECKING:
    from stash.report.fit_records import FitIn
    from stash.services.stash import Stash

WOVEN = {"structure": "woven", "washed": "yes", "selvedge": "1 cm", "weight": "200 gsm"}


@pytest.fixture(autouse=True)
def _one_process(monkeypatch: pytest.MonkeyPatch) -> None:
    """Rectangles are laid sooner than a process starts."""
    monkeypatch.setattr("stash.services.solving.FEW", 1000)


def shelf(stash: Stash, width: str, length: str, **more: str) -> None:
    add_cloth(stash, {"name": "drill", "width": width, "length": length, **WOVEN, **more})


def sewn(stash: Stash, pieces: list[dict[str, str]], kind: str = "dress") -> None:
    add_pattern(stash, {"name": "plain", "kind": kind})
    for piece in pieces:
        add_piece(stash, "plain", "rectangle", piece)
    add_make(stash, {"name": "plain one", "pattern": "plain"})


def panel(name: str, long: str, wide: str, **more: str) -> dict[str, str]:
    return {"name": name, "length": long, "width": wide, **more}


def panels(stash: Stash) -> None:
    """Three panels 80 x 60 cm, each on the fold: one to a row of 125 cm."""
    names = ("front", "back", "side panel")
    sewn(stash, [panel(name, "60 cm", "40 cm", on_fold="yes") for name in names])


def is_sound(fit: FitIn) -> bool:
    """Every lay that is told passes the independent check of its own problem."""
    drawn = [rung.laid for rung in (*fit.ladder, *fit.alone)]
    drawn += [one.laid for rung in (*fit.ladder, *fit.alone) for one in rung.given]
    for laid in drawn:
        if laid is not None:
            assert laid.lay is not None
            assert laid.problem is not None
            if check(laid.problem, laid.lay):
                return False
    return True


def test_one_seam_at_the_back_is_enough(empty_stash: Stash) -> None:
    # 180 cm as it is; with the back in halves of 41.5 cm two rows, 120 cm; margin 5 cm.
    shelf(empty_stash, "127 cm", "1.3 m")
    panels(empty_stash)
    fit = fit_in(empty_stash, "plain one", "drill", careful=0)
    assert fit.fits
    assert fit.least
    assert [rung.way.name for rung in fit.ladder[1:] if rung.way] == ["Back with a centre seam"]
    needs = [rung.need.mm for rung in fit.ladder if rung.need]
    assert needs == pytest.approx([1800, 1200])
    assert fit.last.wins is not None
    assert fit.last.wins.mm == pytest.approx(600)
    assert is_sound(fit)


def test_ruled_out_it_is_not_done(empty_stash: Stash) -> None:
    shelf(empty_stash, "127 cm", "1.3 m")
    panels(empty_stash)
    fit = fit_in(empty_stash, "plain one", "drill", wishes=wishes_of(barred=["centre"]), careful=0)
    assert not fit.fits
    assert fit.least
    # Nothing but 6 cm off each panel brings it nearer: 3 x 54 cm.
    assert fit.last.need is not None
    assert fit.last.need.mm == pytest.approx(1620)
    assert any(one.kind is WayKind.CENTRE for one in fit.left_out)
    assert [one.length is not None for one in fit.buy] == [True] * 4


def test_what_fits_is_left_alone(empty_stash: Stash) -> None:
    shelf(empty_stash, "127 cm", "2 m")
    panels(empty_stash)
    fit = fit_in(empty_stash, "plain one", "drill", careful=0)
    assert fit.as_it_is
    assert not fit.alone


def test_a_piece_wider_than_the_cloth_is_made_possible(empty_stash: Stash) -> None:
    # 80 cm on 70 cm: no lay at all. Two halves of 41.5 x 60 cm end to end: 120 cm.
    shelf(empty_stash, "72 cm", "1.3 m")
    sewn(empty_stash, [panel("back", "60 cm", "40 cm", on_fold="yes")])
    fit = fit_in(empty_stash, "plain one", "drill", careful=0)
    assert fit.ladder[0].need is None
    assert fit.fits
    assert fit.last.need is not None
    assert fit.last.need.mm == pytest.approx(1200)


def test_a_facing_comes_from_the_donor_named(empty_stash: Stash) -> None:
    # Front and back 60 x 90 fill the width, a facing of 10 x 90 above them: 130 cm of 125.
    shelf(empty_stash, "92 cm", "1.25 m", colour="#000080")
    add_cloth(
        empty_stash,
        {"name": "midnight", "width": "92 cm", "length": "40 cm", "colour": "#191970", **WOVEN},
    )
    add_cloth(
        empty_stash,
        {"name": "orange", "width": "92 cm", "length": "40 cm", "colour": "#ff8000", **WOVEN},
    )
    pieces = [panel("front", "60 cm", "90 cm"), panel("back", "60 cm", "90 cm")]
    sewn(empty_stash, [*pieces, panel("front facing", "10 cm", "90 cm")])
    wishes = wishes_of(barred=["length", "margin"])
    fit = fit_in(empty_stash, "plain one", "drill", wishes=wishes, careful=0)
    assert fit.fits
    (given,) = fit.last.given
    assert given.cloth.name == "midnight"
    assert given.pieces == ("front facing",)
    assert given.pairing.verdict.can_be_cut
    assert given.apart.colour == pytest.approx(5.55, abs=0.01)
    assert given.apart.weight == pytest.approx(0)
    assert fit.last.need is not None
    assert fit.last.need.mm == pytest.approx(1200)
    assert is_sound(fit)


def test_interfacing_is_no_donor(empty_stash: Stash) -> None:
    shelf(empty_stash, "92 cm", "1.25 m")
    add_cloth(
        empty_stash,
        {"name": "fusible interfacing", "width": "92 cm", "length": "40 cm", **WOVEN},
    )
    pieces = [panel("front", "60 cm", "90 cm"), panel("back", "60 cm", "90 cm")]
    sewn(empty_stash, [*pieces, panel("front facing", "10 cm", "90 cm")])
    fit = fit_in(empty_stash, "plain one", "drill", careful=0)
    assert any(one.kind is WayKind.DONOR for one in fit.left_out)
    assert not any(rung.given for rung in (*fit.ladder, *fit.alone))


def test_pocket_bags_are_judged_as_lining(empty_stash: Stash) -> None:
    # 400 g/m2 is coat cloth; the bags go into a slippery lining of 80 g/m2 (common practice).
    shelf(empty_stash, "92 cm", "1.25 m", weight="400 gsm")
    lining = {**WOVEN, "weight": "80 gsm", "fibres": "100% viscose", "hand": "fluid"}
    add_cloth(empty_stash, {"name": "slip", "width": "92 cm", "length": "40 cm", **lining})
    pieces = [panel("front", "60 cm", "90 cm"), panel("back", "60 cm", "90 cm")]
    sewn(empty_stash, [*pieces, panel("pocket bag", "20 cm", "20 cm")], "coat")
    wishes = wishes_of(barred=["length", "margin"])
    fit = fit_in(empty_stash, "plain one", "drill", wishes=wishes, careful=0)
    assert fit.fits
    (given,) = fit.last.given
    assert (given.cloth.name, given.pairing.role) == ("slip", Role.LINING)
    assert given.pairing.suit > 0.9


def test_an_unsuited_cloth_is_refused(empty_stash: Stash) -> None:
    shelf(empty_stash, "127 cm", "1.3 m", structure="lace")
    panels(empty_stash)
    with pytest.raises(BadInputError, match="however it is cut"):
        fit_in(empty_stash, "plain one", "drill", careful=0)


def test_what_is_typed_wrong_is_told() -> None:
    with pytest.raises(BadInputError, match="no kind of change"):
        wishes_of(barred=["magic"])
    with pytest.raises(BadInputError, match="more than nothing"):
        wishes_of(seam="0 cm")


def test_it_can_be_stopped(empty_stash: Stash) -> None:
    shelf(empty_stash, "127 cm", "1.3 m")
    panels(empty_stash)
    with pytest.raises(StoppedError):
        fit_in(empty_stash, "plain one", "drill", careful=0, cancelled=lambda: True)


def _by_hand(stash: Stash, fit: FitIn) -> list[float]:
    """Costs of all combinations of the single ways whose own lay is short enough."""
    whole = read_whole(stash)
    make = next(iter(whole.makes.values()))
    pattern = whole.pattern_of(make)
    start = first_cut(question_for(make, pattern, Role.MAIN, fit.cloth))
    needs = Needs(StashLays(stash))
    ways = [rung.way for rung in fit.alone if rung.way is not None]
    every = chain.from_iterable(combinations(ways, n) for n in range(len(ways) + 1))
    found = []
    for some in every:
        if len({way.group for way in some}) < len(some):
            continue
        cut = applied(start, some)
        need = needs.answer(cut.question)
        if need.length is None:
            continue
        margin = margin_of(need, stash.settings).nm if cut.spare_margin else 0
        if need.length.nm + margin <= fit.have.nm:
            found.append(sum(way.cost for way in some))
    return found


@pytest.mark.parametrize("seed", range(3))
def test_no_combination_that_fits_costs_less(empty_stash: Stash, seed: int) -> None:
    chance = Random(seed)
    names = ("front", "back", "waistband", "front facing")
    pieces = [
        panel(
            name,
            f"{chance.randint(30, 70)} cm",
            f"{chance.randint(10, 42)} cm",
            on_fold="yes" if name in ("front", "back") else "no",
        )
        for name in names
    ]
    shelf(empty_stash, f"{chance.randint(88, 110)} cm", f"{chance.randint(60, 110)} cm")
    sewn(empty_stash, pieces, "bag")
    wishes = wishes_of(barred=["piecing", "crosswise"])
    fit = fit_in(empty_stash, "plain one", "drill", wishes=wishes, careful=0)
    assert is_sound(fit)
    if fit.as_it_is:
        return
    able = _by_hand(empty_stash, fit)
    assert fit.fits or not able
    if fit.least and able:
        assert fit.cost <= min(able) + 1e-6


def test_looking_longer_comes_first(empty_stash: Stash) -> None:
    shelf(empty_stash, "127 cm", "1.3 m")
    panels(empty_stash)
    fit = fit_in(empty_stash, "plain one", "drill", careful=1)
    # Three rows of one panel cannot be less than three rows, however long one looks.
    assert fit.search_won is not None
    assert fit.search_won.nm == 0
    assert fit.seconds == 1
    assert replace(fit, search_won=None).fits
