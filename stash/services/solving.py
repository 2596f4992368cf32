"""Working out lays nobody has worked out yet: many at once, on two processors."""

from __future__ import annotations

import signal
from concurrent.futures import ProcessPoolExecutor, as_completed
from multiprocessing import get_context
from typing import TYPE_CHECKING

from stash.errors import StoppedError
from stash.lay.errors import LayError
from stash.pairing.case import case_for
from stash.pairing.gates import failed, gates
from stash.pairing.needs import Needs, missing_problems, question_for, wanted_lays
from stash.services.laybook import StashLays

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator

    from stash.cloth.record import Cloth
    from stash.config import Settings
    from stash.garment.make import Make
    from stash.garment.pattern import Role
    from stash.lay.problem import LayKind, Problem
    from stash.lay.result import Lay
    from stash.pairing.judgement import Need
    from stash.pairing.needs import Question, WantedLay
    from stash.pairing.shortlist import AtHand
    from stash.services.progress import Cancelled, Progress
    from stash.services.stash import Stash
    from stash.services.whole import Whole

PROCESSES = 2
FEW = 3
"""Up to so many lays are worked out here: starting a process takes as long as one lay."""
BATCH = 16
"""Lays kept per transaction, so that little is lost when the work is stopped."""


def questions_of(
    whole: Whole, settings: Settings, asked: Iterable[tuple[Make, Role, Cloth]]
) -> list[Question]:
    """The questions worth laying out: those whose cloth is not barred by a hard ask."""
    questions = []
    for make, role, cloth in asked:
        pattern = whole.pattern_of(make)
        if not failed(gates(case_for(cloth, pattern, role, settings.system))):
            questions.append(question_for(make, pattern, role, cloth))
    return questions


def prepared(
    stash: Stash,
    questions: Iterable[Question] | Callable[[AtHand], Iterable[Question]],
    *,
    book: StashLays | None = None,
    progress: Progress | None = None,
    cancelled: Cancelled | None = None,
) -> Needs:
    """Answers to `questions`, every missing lay worked out first and kept.

    Questions that depend on what is found are asked for with a function: it is called again
    with what is known then, until it asks nothing new.

    Raises:
        StoppedError: `cancelled` said so; what was found until then is kept.
    """
    book = book or StashLays(stash)
    seed = stash.settings.seed
    needs = Needs(book, seed, stash.settings.system)

    at_hand = _at_hand(needs, book)
    asked, done = tuple(questions(at_hand) if callable(questions) else questions), 0
    # Some lays are known only once others are found: those of a block on a flawed cloth.
    while missing := tuple(
        one for one in missing_problems(asked, book, seed) if not book.is_hopeless(one.key)
    ):
        found: list[tuple[str, Lay | None]] = []
        total = done + len(missing)
        try:
            for key, lay in _solved(missing, seed):
                done += 1
                found.append((key, lay))
                if len(found) >= BATCH:
                    book.put_all(found)
                    found.clear()
                if progress:
                    progress(done, total, "lays worked out")
                if cancelled and cancelled():
                    raise StoppedError("Stopped.", "What was worked out until now is kept.")
        finally:
            book.put_all(found)
        asked = tuple(
            questions(at_hand)
            if callable(questions)
            else (question for question in asked if not question.has_pieces)
        )
    return needs


def _at_hand(needs: Needs, book: StashLays) -> AtHand:
    """Answers where a lay is kept, or it is known that there is none."""

    def answer(question: Question) -> Need | None:
        wanted = tuple(wanted_lays(question, book, needs.seed))
        if all(book.get(one.key) is not None or book.is_hopeless(one.key) for one in wanted):
            return needs.answer(question)
        return None

    return answer


def doubtful(stash: Stash, questions: Iterable[Question], book: StashLays) -> bool:
    """Check the kept lays of `questions` again; True if one failed and must be worked out anew.

    Done to every lay read from the database before its length is shown.
    """
    failures = False
    for question in questions:
        for wanted in wanted_lays(question, book, stash.settings.seed):
            lay = book.get(wanted.key)
            if lay is not None and not book.is_sound(wanted.key, wanted.problem):
                book.doubt(wanted.key)
                failures = True
    return failures


def _solved(missing: tuple[WantedLay, ...], seed: int) -> Iterator[tuple[str, Lay | None]]:
    if len(missing) <= FEW:
        for one in missing:
            yield one.key, _solve(one.problem, one.kind, seed)
        return
    pool = ProcessPoolExecutor(
        PROCESSES, mp_context=get_context("spawn"), initializer=_leave_stopping_to_us
    )
    try:
        waiting = {pool.submit(_solve, one.problem, one.kind, seed): one.key for one in missing}
        for future in as_completed(waiting):
            yield waiting[future], future.result()
    finally:
        pool.shutdown(cancel_futures=True)


def _solve(problem: Problem, kind: LayKind | None, seed: int) -> Lay | None:
    """The lay, or None where there is none: the reason is found again when it is asked for."""
    from stash.lay.solve import solve

    try:
        return solve(problem, kind=kind, seed=seed)
    except LayError:
        return None


def _leave_stopping_to_us() -> None:
    """Ctrl-C reaches every process of the terminal; only the first one answers it."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
