from __future__ import annotations

import os
import signal
import subprocess
import sys
import threading
from contextlib import closing
from multiprocessing import active_children
from typing import TYPE_CHECKING

import pytest

from stash.errors import StoppedError
from stash.services.ctrl_c import held
from stash.services.hands import shared_out

if TYPE_CHECKING:
    from collections.abc import Iterator

LIMIT = 120
"""Seconds nothing here comes near, however slow the machine is."""

AT_WORK = """
import signal
from stash.services.hands import shared_out
job = r"import os, time; os.write(1, b'at work\\n'); time.sleep(1000)"
signal.signal(signal.SIGINT, signal.default_int_handler)
try:
    list(shared_out(exec, [job, job], 2))
except KeyboardInterrupt:
    print("stopped", flush=True)
"""


@pytest.fixture(autouse=True)
def _at_a_terminal() -> Iterator[None]:
    """Ctrl-C as at a terminal: whoever starts the tests in the background has it ignored."""
    before = signal.signal(signal.SIGINT, signal.default_int_handler)
    yield
    signal.signal(signal.SIGINT, before)


def _half(number: int) -> float:
    return 1 / number


def _blocked(_: int) -> set[int]:
    return {int(one) for one in signal.pthread_sigmask(signal.SIG_BLOCK, ())}


def test_every_job_gets_its_own_answer() -> None:
    assert dict(shared_out(abs, [-1, -2, -3, -4, -5], 2)) == {-n: n for n in range(1, 6)}
    assert list(shared_out(abs, [], 2)) == []
    assert active_children() == []


def test_a_fault_comes_here_and_says_where_it_was() -> None:
    with pytest.raises(ZeroDivisionError) as fault:
        list(shared_out(_half, [0, 1, 2], 2))
    assert "in _half" in fault.value.__notes__[0]


def test_a_process_that_dies_is_not_waited_for() -> None:
    with pytest.raises(EOFError):
        list(shared_out(os._exit, [1, 1, 1], 2))
    assert active_children() == []


def test_nobody_waits_for_what_is_dropped() -> None:
    with closing(shared_out(exec, ["", "import time; time.sleep(1000)"], 2)) as answers:
        next(answers)
        assert len(active_children()) == 2
    assert active_children() == []


def test_it_is_asked_while_they_work_whether_anybody_waits() -> None:
    def leave() -> None:
        raise StoppedError("Stopped.")

    with pytest.raises(StoppedError):
        list(shared_out(exec, ["import time; time.sleep(1000)"] * 2, 2, check=leave))
    assert active_children() == []


@pytest.mark.skipif(not hasattr(signal, "pthread_sigmask"), reason="cannot be blocked here")
def test_the_processes_are_born_deaf_to_ctrl_c_and_this_one_hears_it_as_before() -> None:
    before = _blocked(0)
    assert [signal.SIGINT in blocked for _, blocked in shared_out(_blocked, [1, 2], 2)] == [1, 1]
    assert _blocked(0) == before
    assert signal.getsignal(signal.SIGINT) is signal.default_int_handler


@pytest.mark.skipif(not hasattr(os, "killpg"), reason="no process groups here")
@pytest.mark.parametrize("times", [1, 3])
def test_ctrl_c_ends_all_of_it_at_once_however_often_it_is_pressed(times: int) -> None:
    with subprocess.Popen(
        [sys.executable, "-c", AT_WORK],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        start_new_session=True,
    ) as program:
        assert program.stdout is not None
        begun = [program.stdout.readline() for _ in range(2)]
        try:
            for _ in range(times):
                os.killpg(program.pid, signal.SIGINT)
            program.communicate(timeout=LIMIT)
        finally:
            program.kill()
    assert begun == ["at work\n"] * 2


def test_ctrl_c_is_held_until_the_end() -> None:
    done: list[str] = []

    def work() -> None:
        with held():
            signal.raise_signal(signal.SIGINT)
            done.append("all")

    with pytest.raises(KeyboardInterrupt):
        work()
    assert done == ["all"]
    assert signal.getsignal(signal.SIGINT) is signal.default_int_handler


@pytest.mark.skipif(not hasattr(signal, "pthread_kill"), reason="threads cannot be told here")
def test_ctrl_c_that_reaches_another_thread_is_held_too() -> None:
    done: list[str] = []
    hearing = threading.Event()

    def hear() -> None:
        hearing.wait()
        signal.pthread_kill(threading.get_ident(), signal.SIGINT)

    def work() -> None:
        with held():
            hearing.set()
            other.join()
            done.append("all")

    other = threading.Thread(target=hear)
    other.start()
    with pytest.raises(KeyboardInterrupt):
        work()
    assert done == ["all"]


def test_a_thread_that_is_not_the_first_can_hold_it() -> None:
    done: list[str] = []

    def hold() -> None:
        with held():
            done.append("all")

    other = threading.Thread(target=hold)
    other.start()
    other.join()
    assert done == ["all"]
