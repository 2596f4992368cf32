"""What the helper process nearly finds: pieces that still overlap are pushed apart."""

from __future__ import annotations

import json
import time
from dataclasses import replace
from typing import TYPE_CHECKING

import pytest
from lay_helper import replace_helper
from lay_rows import faults
from lay_shapes import KITES

from stash.lay import nester
from stash.lay.careful import Careful, _Hunt
from stash.lay.effort import Effort
from stash.lay.forms import FINE, GRID
from stash.lay.obstacles import strip_of
from stash.lay.open_lay import lay_open, open_copies
from stash.lay.table import Item, Placed, length_of

if TYPE_CHECKING:
    from collections.abc import Callable

STRIP = strip_of(KITES)
ITEMS = tuple(Item(forms) for forms in open_copies(KITES))


def good_row() -> tuple[Placed, ...]:
    """A short legal row, in the order of the items."""
    found = lay_open(KITES, Effort(tries=4))
    assert found.row is not None
    waiting = {item.forms: [p for p in found.row if p.form in item.forms] for item in ITEMS}
    return tuple(waiting[item.forms].pop() for item in ITEMS)


def squeezed(row: tuple[Placed, ...]) -> tuple[Placed, ...]:
    """The row on a fiftieth less length, so that neighbours overlap."""
    return tuple(p._replace(x=int(p.x * 0.98) // GRID * GRID) for p in row)


def one_after_another() -> tuple[Placed, ...]:
    """The longest row there is."""
    row: list[Placed] = []
    end = 0
    for item in ITEMS:
        row.append(Placed(item.forms[0], end, 0))
        end += item.forms[0].length
    return tuple(row)


def only(*near_misses: tuple[Placed, ...]) -> Callable[[], tuple[Placed, ...] | None]:
    """A source of these near misses and no more."""
    return iter([*near_misses, None]).__next__


def hunt_from(row: tuple[Placed, ...], seconds: float) -> _Hunt:
    hunt = _Hunt(STRIP, ITEMS, seed=1, helped=True)
    hunt.until(time.monotonic() + seconds, enough=0, beat=None)
    hunt.begin(row, tries=1)
    return hunt


def test_a_near_miss_is_pushed_apart_and_taken_where_it_is_shorter() -> None:
    good = good_row()
    hunt = hunt_from(one_after_another(), seconds=60)
    hunt.part([only(squeezed(good))], may_last=60)
    row = hunt.best
    assert row is not None
    assert length_of(row) <= 1.01 * length_of(good) < 0.8 * length_of(one_after_another())
    assert faults(KITES, row) == ()


def test_a_near_miss_that_is_no_gain_changes_nothing() -> None:
    good = good_row()
    hunt = hunt_from(good, seconds=60)
    before = hunt.best
    hunt.part([only(one_after_another())], may_last=60)
    hunt.part([only()], may_last=60)
    assert hunt.best == before


def test_no_more_time_is_taken_than_they_may_last() -> None:
    hunt = hunt_from(one_after_another(), seconds=60)
    left = [squeezed(good_row())] * 20
    hunt.part([lambda: left.pop() if left else None], may_last=1e-9)
    assert len(left) == 19  # the first takes more than that
    hunt.part([lambda: left.pop() if left else None], may_last=1e-9)
    assert len(left) == 19
    hunt.part([lambda: left.pop() if left else None], may_last=60)
    assert left == []


def test_nothing_is_pushed_apart_once_the_time_is_up() -> None:
    hunt = hunt_from(one_after_another(), seconds=0)
    before = hunt.best
    hunt.part([only(squeezed(good_row()))], may_last=60)
    assert hunt.best == before


def test_only_what_nearly_fits_on_the_best_length_is_pushed_together(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    pushed: list[int] = []

    def noted(_: object, row: tuple[Placed, ...]) -> tuple[Placed, ...]:
        pushed.append(length_of(row))
        return row

    good, long = good_row(), one_after_another()
    hunt = hunt_from(good, seconds=60)
    monkeypatch.setattr("stash.lay.careful.compact", noted)
    monkeypatch.setattr("stash.lay.careful.pushed_apart", lambda _, row: row)
    hunt.part([only(long, good)], may_last=60)
    assert pushed == [length_of(good)]


def test_one_near_miss_of_each_source_in_turn(monkeypatch: pytest.MonkeyPatch) -> None:
    pushed: list[tuple[Placed, ...]] = []
    monkeypatch.setattr("stash.lay.careful.pushed_apart", lambda _, row: pushed.append(row))
    good, long = good_row(), one_after_another()
    hunt = hunt_from(good, seconds=60)
    hunt.part([only(good, good, good), only(long), only()], may_last=60)
    assert pushed == [good, long, good, good]


@pytest.mark.parametrize(("stopped_at", "some"), [(0.5, False), (1.0, True)])
def test_near_misses_wait_until_they_are_seldom_beaten(
    stopped_at: float, some: bool, monkeypatch: pytest.MonkeyPatch
) -> None:
    """From six tenths of the time on, while the library still works."""
    babbling(monkeypatch, [told(overlapping=True, length=1)], stays=True)
    parted: list[float] = []
    share = [0.0]

    def noted(*_: object) -> None:
        parted.append(share[0])

    def progress(spent: float, _: int) -> bool:
        share[0] = spent
        return spent < stopped_at

    monkeypatch.setattr("stash.lay.careful.pushed_apart", noted)
    with Careful(STRIP, ITEMS, seconds=3) as careful:
        careful.search(progress)
    assert bool(parted) is some
    assert all(spent >= 0.6 for spent in parted)


def babbling(monkeypatch: pytest.MonkeyPatch, lines: list[str], *, stays: bool = False) -> None:
    """Let the helper process say these lines and end; or stay, as if it worked on."""
    written = "".join(line + "\n" for line in lines)
    rest = "; sys.stdout.flush(); import time; time.sleep(60)" if stays else ""
    replace_helper(monkeypatch, f"import sys; sys.stdout.write({written!r}){rest}")


def told(*, overlapping: bool, length: float, dx: float = 0.0) -> str:
    """A line of the helper: every piece in the same place."""
    alike = list(dict.fromkeys(item.forms for item in ITEMS))
    copies = [(alike.index(item.forms), dx, 0.0, 0.0) for item in ITEMS]
    return json.dumps({"length": length, "placed": copies, "overlapping": overlapping})


def test_near_misses_are_told_apart_from_what_was_found(monkeypatch: pytest.MonkeyPatch) -> None:
    first, last = told(overlapping=True, length=400), told(overlapping=True, length=399, dx=3)
    babbling(monkeypatch, [first, told(overlapping=False, length=500, dx=7), last])
    with nester.Nester(STRIP, ITEMS, nester.Work.lasting(1, 1, 1)) as beside:
        assert beside.wait() == 500  # what overlaps is no length reached
        (found,) = beside.news()
        near_miss, earlier = beside.near_miss(), beside.near_miss()
        assert beside.news() == []
        assert beside.near_miss() is None
    assert near_miss is not None
    assert earlier is not None
    assert [round(row[0].x / FINE) for row in (found, near_miss, earlier)] == [7, 3, 0]


@pytest.mark.parametrize(
    "line",
    ["[]", "{}", "nothing", '{"length": 3}', '{"length": "long", "placed": []}', '{"placed": 1}'],
)
def test_garbled_lines_are_left_out(line: str, monkeypatch: pytest.MonkeyPatch) -> None:
    babbling(monkeypatch, [line, told(overlapping=False, length=500), line])
    with nester.Nester(STRIP, ITEMS, nester.Work.lasting(1, 1, 1)) as beside:
        assert beside.wait() == 500
        assert len(beside.news()) == 1


def test_a_row_that_lacks_pieces_is_no_near_miss(monkeypatch: pytest.MonkeyPatch) -> None:
    babbling(monkeypatch, ['{"length": 3, "placed": [[0, 0, 0, 0]], "overlapping": true}'])
    with nester.Nester(STRIP, ITEMS, nester.Work.lasting(1, 1, 1)) as beside:
        beside.wait()
        assert beside.near_miss() is None


def test_the_helper_tells_of_near_misses() -> None:
    """It does while it cannot go on: so where far too many pieces are to go on one length."""
    many = replace(KITES, shapes=tuple(replace(s, copies=3 * s.copies) for s in KITES.shapes))
    items = tuple(Item(forms) for forms in open_copies(many))
    with nester.Nester(STRIP, items, nester.Work(2, 0.2, workers=1, seed=1)) as beside:
        length = beside.wait()
        near_miss = beside.near_miss()
    assert length is not None
    assert near_miss is not None
    assert sorted(p.form.shape for p in near_miss) == [0] * 18 + [1] * 12
