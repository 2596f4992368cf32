"""Work shared out to processes beside this one; none of them outlives it."""

from __future__ import annotations

import signal
import traceback
from contextlib import suppress
from multiprocessing import get_context, resource_tracker
from multiprocessing.connection import wait
from typing import TYPE_CHECKING, Any, NamedTuple, TypeVar

from stash.services.ctrl_c import CAN_BLOCK, held

if TYPE_CHECKING:
    from collections.abc import Callable, Generator, Iterator, Sequence
    from multiprocessing.process import BaseProcess

Job = TypeVar("Job")
Answer = TypeVar("Answer")


BETWEEN = 0.1
"""Seconds between two looks whether anybody still waits."""


class _Hand(NamedTuple):
    process: BaseProcess
    line: Any
    """A Connection: jobs go out on it, answers come in."""


def shared_out(
    work: Callable[[Job], Answer],
    jobs: Sequence[Job],
    processes: int,
    *,
    check: Callable[[], None] = lambda: None,
) -> Generator[tuple[Job, Answer]]:
    """Every job with its answer, as they come.

    `check` is called again and again while there is none; what it raises ends all of it. Then, or
    closed or interrupted, nobody waits for what the processes are still at.

    Raises:
        EOFError: A process died.
    """
    hands: list[_Hand] = []
    try:
        _start(hands, work, min(processes, len(jobs)))
        waiting = iter(jobs)
        busy: dict[Any, Job] = {}
        for hand in hands:
            _give(hand.line, waiting, busy)
        while busy:
            ready: list[Any] = wait(tuple(busy), BETWEEN)
            if not ready:
                check()
            for line in ready:
                job, answer = busy.pop(line), line.recv()
                if isinstance(answer, Exception):
                    raise answer
                _give(line, waiting, busy)
                yield job, answer
    finally:
        for hand in hands:
            hand.process.kill()
        for hand in hands:
            hand.process.join()
            hand.line.close()


def _start(hands: list[_Hand], work: Callable[[Any], object], count: int) -> None:
    """Ctrl-C reaches every process of the terminal; only this one answers it."""
    spawning = get_context("spawn")
    if CAN_BLOCK:
        resource_tracker.ensure_running()  # comes with the first process, and unblocks Ctrl-C
    with held():
        for _ in range(count):
            ours, theirs = spawning.Pipe()
            process = spawning.Process(target=_serve, args=(work, theirs), daemon=True)
            process.start()
            theirs.close()
            hands.append(_Hand(process, ours))


def _give(line: Any, waiting: Iterator[Job], busy: dict[Any, Job]) -> None:
    for job in waiting:
        line.send(job)
        busy[line] = job
        return


def _serve(work: Callable[[Any], object], line: Any) -> None:
    """Answer jobs until nobody is there to ask; a fault is the answer too."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    with suppress(EOFError, OSError):
        while True:
            job = line.recv()
            try:
                answer = work(job)
            except Exception as fault:
                fault.add_note(traceback.format_exc())
                answer = fault
            line.send(answer)
