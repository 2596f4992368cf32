"""Ctrl-C: a careful search keeps and shows what it found by then; anything else ends at once."""

from __future__ import annotations

import importlib
import json
import os
import signal
import subprocess
import sys
import weakref
from time import sleep
from typing import TYPE_CHECKING

import pytest
from cli_kit import data, run

from stash.cli import careful, ctrl_c, stopping
from stash.cli.bar import Bar
from stash.cli.commands import fit_in
from stash.errors import Exit

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from click.testing import Result

    from stash.services.stash import Stash

# At this width the legs lie neither two abreast nor one: no bound ends the search.
ON = ("lay", "rain", "--width", "115cm", "--kind", "open")
SAID = "Stopping: the best so far follows. Ctrl-C again stops at once."
AT_A_TERMINAL = """
import signal
from stash.cli.main import main
signal.signal(signal.SIGINT, signal.default_int_handler)
main()
"""
"""Whoever starts the tests in the background has Ctrl-C ignored."""
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
    assert result.stderr.splitlines() == [SAID, careful.STOPPED]
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


def _fit_in(times: int, monkeypatch: pytest.MonkeyPatch) -> Result:
    """Press Ctrl-C so often in the midst of looking longer."""

    class Pressing(Bar):
        def __call__(self, done: int, total: int, what: str) -> None:
            if what == "seconds of looking longer" and done > total / 20:
                for _ in range(times):
                    signal.raise_signal(signal.SIGINT)

    monkeypatch.setattr("stash.cli.commands.fit_in.Bar", Pressing)
    monkeypatch.setattr("stash.services.solving.FEW", 1000)
    return run("fit-in", "rain", "blue", "--careful", "60")


def test_ctrl_c_while_fit_in_looks_longer_ends_only_that(
    small: Stash, monkeypatch: pytest.MonkeyPatch
) -> None:
    result = _fit_in(1, monkeypatch)
    assert result.exit_code == Exit.DONE, result.stderr
    assert result.stderr == f"Stopping: {fit_in.NEXT}. Ctrl-C again stops at once.\n"
    assert "seconds of looking longer" in " ".join(result.stdout.split())
    assert " 60 seconds" not in result.stdout
    assert signal.getsignal(signal.SIGINT) is signal.default_int_handler


def test_ctrl_c_pressed_twice_stops_fit_in(small: Stash, monkeypatch: pytest.MonkeyPatch) -> None:
    result = _fit_in(2, monkeypatch)
    assert result.exit_code == Exit.STOPPED
    assert result.stdout == ""


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


@pytest.mark.skipif(not hasattr(os, "openpty"), reason="no terminal can be played here")
def test_ctrl_c_once_and_again_ends_a_plan_without_a_word_more(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("STASH_HOME", str(tmp_path))
    terminal, end = os.openpty()
    with subprocess.Popen(
        [sys.executable, "-c", AT_A_TERMINAL, "plan", "--sample"],
        stdout=subprocess.DEVNULL,
        stderr=end,
        start_new_session=True,
    ) as program:
        os.close(end)
        said = ""
        for wanted in ("lays worked out", "Stopped."):
            while wanted not in said:
                said += os.read(terminal, 1000).decode(errors="replace")
            for _ in range(3):
                os.killpg(program.pid, signal.SIGINT)
        try:
            assert program.wait(120) == Exit.STOPPED
        finally:
            program.kill()
    os.close(terminal)
    assert "Traceback" not in said
    assert said.rstrip().endswith("stash: Stopped.")


def _stopped_within(seconds: int) -> bool:
    try:
        for _ in range(seconds * 10):
            sleep(0.1)
    except KeyboardInterrupt:
        return True
    return False


def test_ctrl_c_while_python_tidies_up_is_heard_after_all(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sys, "unraisablehook", sys.unraisablehook)
    ctrl_c.heed()
    thing: set[int] | None = set()
    watch = weakref.ref(thing, lambda _: signal.raise_signal(signal.SIGINT))
    thing = None
    assert watch() is None
    assert _stopped_within(60)


def test_ctrl_c_waits_for_the_modules_being_read(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(sys, "unraisablehook", sys.unraisablehook)
    monkeypatch.syspath_prepend(str(tmp_path))
    words = "import signal\nsignal.raise_signal(signal.SIGINT)\nwhole = True\n"
    (tmp_path / "read_in_the_midst.py").write_text(words)
    ctrl_c.heed()
    assert importlib.import_module("read_in_the_midst").whole
    assert _stopped_within(60)
