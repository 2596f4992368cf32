"""Ctrl-C while `stash lay --careful` searches: what was found by then is kept and shown."""

from __future__ import annotations

import json
import signal
from typing import TYPE_CHECKING

import pytest
from cli_kit import data, run

from stash.cli import careful, stopping
from stash.cli.bar import Bar
from stash.errors import Exit

if TYPE_CHECKING:
    from collections.abc import Iterator

    from stash.services.stash import Stash

# At this width the legs lie neither two abreast nor one: no bound ends the search.
ON = ("lay", "rain", "--width", "115cm", "--kind", "open")
CAREFUL = (*ON, "--careful", "20")


@pytest.fixture(autouse=True)
def _at_a_terminal() -> Iterator[None]:
    """Ctrl-C as at a terminal: whoever starts the tests in the background has it ignored."""
    before = signal.signal(signal.SIGINT, signal.default_int_handler)
    yield
    signal.signal(signal.SIGINT, before)


def _press_after(reports: int, times: int, monkeypatch: pytest.MonkeyPatch) -> list[int]:
    """Press Ctrl-C so often at that report of the search; the list counts the reports."""
    heard: list[int] = []

    class Pressing(Bar):
        def __call__(self, done: int, total: int, what: str) -> None:
            if not what.startswith("seconds"):
                return
            heard.append(done)
            if len(heard) == reports:
                for _ in range(times):
                    signal.raise_signal(signal.SIGINT)

    monkeypatch.setattr(careful, "Bar", Pressing)
    return heard


def test_the_first_ctrl_c_ends_the_search_and_keeps_what_it_found(
    small: Stash, monkeypatch: pytest.MonkeyPatch
) -> None:
    heard = _press_after(2, 1, monkeypatch)
    result = run(*CAREFUL)
    assert result.exit_code == Exit.DONE, result.stderr
    assert len(heard) == 2
    assert result.stderr.splitlines() == [stopping.SAID, careful.STOPPED]
    assert "careful, seed" in result.stdout
    after = data(*ON)
    assert after["solver"] == "careful"
    assert signal.getsignal(signal.SIGINT) is signal.default_int_handler


def test_json_stays_json_when_it_is_stopped(small: Stash, monkeypatch: pytest.MonkeyPatch) -> None:
    _press_after(2, 1, monkeypatch)
    result = run(*CAREFUL, "--json")
    assert json.loads(result.stdout)["need_mm"] == data(*ON)["need_mm"]


@pytest.mark.parametrize(("reports", "times"), [(1, 1), (2, 2)], ids=["nothing yet", "twice"])
def test_ctrl_c_before_anything_is_found_and_the_second_one_stop_the_program(
    small: Stash, monkeypatch: pytest.MonkeyPatch, reports: int, times: int
) -> None:
    _press_after(reports, times, monkeypatch)
    result = run(*CAREFUL)
    assert result.exit_code == Exit.STOPPED
    assert result.stderr.splitlines()[-1] == "stash: Stopped."
    assert result.stdout == ""
    assert signal.getsignal(signal.SIGINT) is signal.default_int_handler


def test_where_ctrl_c_is_ignored_it_stays_so() -> None:
    before = signal.signal(signal.SIGINT, signal.SIG_IGN)
    try:
        with stopping.Stopping(lambda _: None) as ending:
            assert not ending.is_wanted()
            signal.raise_signal(signal.SIGINT)
            assert not ending.is_wanted()
        assert signal.getsignal(signal.SIGINT) is signal.SIG_IGN
    finally:
        signal.signal(signal.SIGINT, before)


def test_a_search_that_ends_by_itself_says_nothing() -> None:
    said: list[str] = []
    with stopping.Stopping(said.append) as ending:
        assert not ending.is_wanted()
    assert not ending.heeded
    assert said == []
    assert signal.getsignal(signal.SIGINT) is signal.default_int_handler
