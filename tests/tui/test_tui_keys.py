"""Every screen by keyboard: what can be reached, what the keys do, and that Escape returns."""

from __future__ import annotations

import shutil
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest
from ready_stash import clock
from small_stash import fill
from textual.widget import Widget
from tui_kit import SIZES, go, place, settled, shown, until

from stash.services.curve import width_curve
from stash.services.lay_kinds import lay_kinds
from stash.services.stash import Stash
from stash.tui.actions import ACTIONS, ROOMS, actions_of
from stash.tui.app import StashApp

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from textual.pilot import Pilot
    from textual.screen import Screen

ROUTES: dict[str, tuple[str, ...]] = {
    "bench": ("1",),
    "shelf": ("2",),
    "patterns": ("3",),
    "parts": ("3", "enter"),
    "widths": ("3", "w"),
    "makes": ("4",),
    "pairing": ("5",),
    "buying": ("6",),
    "diary": ("7",),
    "plan": ("v",),
    "become": ("2", "b"),
    "lay": ("5", "enter"),
    "curve": ("5", "enter", "c"),
    "kinds": ("5", "enter", "t"),
    "grid": ("5", "g"),
    "ways": ("5", "i"),
    "drawn": ("5", "i", "enter"),
    "form": ("2", "e"),
    "choose": ("5", "m"),
    "confirm": ("4", "d"),
    "help": ("question_mark",),
    "history": ("7", "h"),
}
"""The keys that lead from the bench to each screen."""
BY_OTHERS = {"clash", "import", "found"}
"""Places that need another program or a file: see `test_tui_undo`, `test_tui_import` and
`test_tui_pieces_file`."""
KEYS = [
    (where, action.key)
    for where in ROUTES
    for action in actions_of(where)
    if action.footer and action.key not in ("escape", "x")
]
STAYS = {
    ("pairing", "r"),
    ("lay", "minus"),
    ("drawn", "minus"),
    ("lay", "f"),
    ("drawn", "f"),
    ("lay", "k"),
    ("bench", "s"),
}
"""Keys that may leave the picture as it is: one role only, already smallest, same lay again."""


@pytest.fixture(scope="module")
def laid_template(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The small stash, the lays of its curves and kinds kept; never open it, copy it."""
    place = tmp_path_factory.mktemp("laid")
    with Stash.open(place, clock=clock) as stash:
        fill(stash)
        for nap in (None, True):
            width_curve(stash, "rain trousers", nap=nap)
        lay_kinds(stash, "rain trousers")
    return place


@pytest.fixture
def small(laid_template: Path, home: Path) -> Iterator[Stash]:
    """The small stash, its lays known: these tests are about keys."""
    shutil.copytree(laid_template, home)
    with Stash.open(clock=clock) as stash:
        yield stash


async def walk(pilot: Pilot[None], keys: Sequence[str], where: str) -> None:
    await settled(pilot)
    for key in keys:
        await pilot.press(key)
        await settled(pilot)
    await until(pilot, lambda: place(pilot) == where)


def _is_seen(widget: Widget, screen: Screen[Any]) -> bool:
    return widget.region.overlaps(screen.region)


def footer_keys(pilot: Pilot[None]) -> set[str]:
    bound = pilot.app.screen.active_bindings.values()
    return {one.binding.key for one in bound if one.binding.show and one.enabled}


def test_every_place_has_a_route() -> None:
    assert set(ROUTES) | BY_OTHERS == {action.place for action in ACTIONS} - {"app"}
    assert {room.name for room in ROOMS} == set(StashApp.MODES)


def test_no_key_means_two_things_in_one_place() -> None:
    everywhere = [action.key for action in actions_of("app")]
    for where in ROUTES:
        keys = everywhere + [action.key for action in actions_of(where)]
        assert len(keys) == len(set(keys)), where


@pytest.mark.parametrize("size", SIZES, ids=str)
@pytest.mark.parametrize("where", ROUTES)
async def test_tab_reaches_everything(small: Stash, where: str, size: tuple[int, int]) -> None:
    async with StashApp(small).run_test(size=size) as pilot:
        await walk(pilot, ROUTES[where], where)
        screen = pilot.app.screen
        wanted = {w for w in screen.walk_children(Widget) if w.focusable and w.region.area}
        reached = set()
        for _ in range(len(screen.focus_chain) + 1):
            await pilot.press("tab")
            focused = screen.focused
            if focused is not None:
                reached.add(focused)
                await until(pilot, partial(_is_seen, focused, screen))
        assert wanted <= reached


@pytest.mark.parametrize(("where", "key"), KEYS)
async def test_footer_key_does_something(small: Stash, where: str, key: str) -> None:
    async with StashApp(small).run_test(size=(80, 24)) as pilot:
        await walk(pilot, ROUTES[where], where)
        if key not in footer_keys(pilot):
            one_only = {("pairing", "r"), ("drawn", "n"), ("widths", "v")}
            assert (where, key) in one_only or key == "u", "the key is not offered"
            return
        before = shown(pilot), pilot.app.screen
        await pilot.press(key)
        await settled(pilot)
        changed = (shown(pilot), pilot.app.screen) != before
        assert changed or (where, key) in STAYS


@pytest.mark.parametrize("where", [w for w in ROUTES if w not in {r.name for r in ROOMS}])
async def test_escape_returns(small: Stash, where: str) -> None:
    async with StashApp(small).run_test(size=(80, 24)) as pilot:
        await settled(pilot)
        *first, last = ROUTES[where]
        for key in first:
            await pilot.press(key)
            await settled(pilot)
        came_from = place(pilot)
        await pilot.press(last)
        await until(pilot, lambda: place(pilot) == where)
        await settled(pilot)
        await pilot.press("escape")
        await until(pilot, lambda: place(pilot) == came_from)


@pytest.mark.parametrize("size", SIZES, ids=str)
async def test_empty_rooms_say_what_to_do_next(empty_stash: Stash, size: tuple[int, int]) -> None:
    async with StashApp(empty_stash).run_test(size=size) as pilot:
        await settled(pilot)
        for room in ROOMS:
            await go(pilot, room.key, room.name)
            assert "ress " in shown(pilot), room.name
            await pilot.press("escape")
            await until(pilot, lambda: place(pilot) == "bench")


async def test_rooms_are_in_the_footer_and_in_help(small: Stash) -> None:
    async with StashApp(small).run_test(size=(80, 24)) as pilot:
        await settled(pilot)
        foot = shown(pilot).replace("\u00a0", " ")
        for room in ROOMS:
            assert f"{room.key} {room.title}" in foot
        await pilot.press("question_mark")
        await until(pilot, lambda: place(pilot) == "help")
        for action in actions_of("bench"):
            assert action.text.split()[0] in shown(pilot)


async def test_palette_offers_the_actions_of_the_room(small: Stash) -> None:
    async with StashApp(small).run_test(size=(80, 24)) as pilot:
        await go(pilot, "2", "shelf")
        await pilot.press("ctrl+p")
        await pilot.press(*"sort")
        await until(pilot, lambda: "Sort" in shown(pilot))
        await pilot.press("enter", "enter")
        await until(pilot, lambda: "by free length" in shown(pilot))


def test_nothing_here_uses_a_mouse() -> None:
    for file in Path(__file__).parent.glob("*.py"):
        if file != Path(__file__):
            text = file.read_text(encoding="utf-8")
            assert "pilot.click" not in text
            assert "pilot.hover" not in text
