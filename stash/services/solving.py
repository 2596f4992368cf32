"""Working out lays nobody has worked out yet: many at once, on two processors."""

from __future__ import annotations

from contextlib import closing
from dataclasses import replace
from functools import partial
from typing import TYPE_CHECKING

from stash.errors import StoppedError
from stash.lay.errors import LayError
from stash.pairing.case import case_for
from stash.pairing.gates import failed, gates
from stash.pairing.needs import Needs, missing_problems, question_for, wanted_lays
from stash.services.ctrl_c import held
from stash.services.hands import shared_out
from stash.services.laybook import StashLays

if TYPE_CHECKING:
    from collections.abc import Callable, Generator, Iterable, Sequence

    from stash.cloth.record import Cloth
    from stash.config import Settings
    from stash.garment.make import Make
    from stash.garment.pattern import Role
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
    work = _Work(stash, book or StashLays(stash), progress, cancelled)
    work.out(questions)
    return work.needs


class _Work:
    """Works out the lays that are missing and keeps them."""

    def __init__(
        self,
        stash: Stash,
        book: StashLays,
        progress: Progress | None,
        cancelled: Cancelled | None,
    ) -> None:
        settings = stash.settings
        self.needs = Needs(book, settings.seed, settings.system, ahead=self.out)
        self._book = book
        self._progress = progress
        self._cancelled = cancelled

    def out(self, questions: Iterable[Question] | Callable[[AtHand], Iterable[Question]]) -> None:
        """The lays of these questions; those of a function of what is known, until none is new."""
        asked, done = tuple(questions(self._at_hand) if callable(questions) else questions), 0
        # Some lays are known only once others are found: those of a block on a flawed cloth.
        while missing := tuple(
            one
            for one in missing_problems(asked, self._book, self.needs.seed)
            if not self._book.is_hopeless(one.key)
        ):
            self._lay(missing, done)
            done += len(missing)
            asked = tuple(
                questions(self._at_hand)
                if callable(questions)
                else (question for question in asked if not question.has_pieces)
            )

    def _lay(self, missing: Sequence[WantedLay], done: int) -> None:
        """Lay these out, `done` having been laid out before them."""
        found: list[tuple[str, Lay | None]] = []
        total = done + len(missing)
        try:
            with closing(_solved(missing, self.needs.seed, self._check)) as answers:
                for key, lay in answers:
                    done += 1
                    found.append((key, lay))
                    if len(found) >= BATCH:
                        self._book.put_all(found)
                        found.clear()
                    if self._progress:
                        self._progress(done, total, "lays worked out")
                    self._check()
        finally:
            with held():
                self._book.put_all(found)

    def _check(self) -> None:
        if self._cancelled and self._cancelled():
            raise StoppedError("Stopped.", "What was worked out until now is kept.")

    def _at_hand(self, question: Question) -> Need | None:
        """Its answer where its lays are kept, or it is known that there are none."""
        for one in wanted_lays(question, self._book, self.needs.seed):
            if self._book.get(one.key) is None and not self._book.is_hopeless(one.key):
                return None
        return self.needs.answer(question)


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


def _solved(
    missing: Sequence[WantedLay], seed: int, check: Callable[[], None]
) -> Generator[tuple[str, Lay | None]]:
    work = partial(_solve, seed=seed)
    if len(missing) <= FEW:
        for one in missing:
            yield one.key, work(one)
        return
    asked = _longest_first(missing)
    with closing(shared_out(work, asked, PROCESSES, check=check)) as answers:
        for one, lay in answers:
            yield one.key, lay


def _longest_first(missing: Iterable[WantedLay]) -> list[WantedLay]:
    """Many pieces take long: last of all, one process would wait for the other."""
    asked = [replace(one, source=one.problem) for one in missing]
    return sorted(asked, key=lambda one: -sum(shape.copies for shape in one.problem.shapes))


def _solve(wanted: WantedLay, seed: int) -> Lay | None:
    """The lay, or None where there is none: the reason is found again when it is asked for."""
    from stash.lay.solve import solve

    try:
        return solve(wanted.problem, kind=wanted.kind, seed=seed)
    except LayError:
        return None
