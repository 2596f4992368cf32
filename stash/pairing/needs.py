"""How much washed cloth a role needs: laid out, charted, estimated, or honestly unknown."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import lru_cache
from typing import TYPE_CHECKING

from stash.cloth.washing import shrinkage, washed_usable_width
from stash.config import System
from stash.garment.pattern import Role
from stash.lay.errors import LayError, NoRoomError, TooNarrowError
from stash.lay.key import problem_key
from stash.lay.problem import LayKind, Problem, Repeat, Ring, Shape, Spot
from stash.pairing.blocked import StoodIn, stood_in
from stash.pairing.charted import charted_need, is_charted, of_whole_cloth, unknown
from stash.pairing.judgement import Need, Sureness
from stash.pairing.narrow import narrow_words
from stash.pairing.shapes import shapes_of
from stash.pairing.times import times_over
from stash.units.length import NM_PER_MM, ZERO, Length

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator

    from stash.cloth.record import Cloth
    from stash.garment.make import Make
    from stash.garment.pattern import Pattern
    from stash.pairing.block_curve import Laid
    from stash.pairing.book import KnownLays, LayBook

MATCHED = (Role.MAIN, Role.CONTRAST)
"""Roles whose print is seen, so its repeat has to match."""
FINEST_MM = 5
"""Nobody matches a finer repeat: cutting and sewing stray by more (common practice)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Question:
    """How much does this role need on a cloth like this? Lengths of the cloth once washed."""

    make: Make
    pattern: Pattern
    role: Role
    width: Length
    """Usable width, washed."""
    nap: bool
    label: Length | None = None
    """Width as sold, which is what charts speak of; None: the usable width stands for it."""
    spots: tuple[Spot, ...] = ()
    patches: tuple[Ring, ...] = ()
    """Flaws with corners."""
    outline: Ring = ()
    """Shape of a remnant."""
    repeat: Repeat | None = None
    """Of its print, met by the pieces that have a match point."""
    kind: LayKind | None = None
    """None: the shortest kind."""
    gap: Length = ZERO
    """To be kept between pieces."""
    times: int = 1
    """Makes of these pieces laid together."""
    beside: tuple[tuple[Make, Pattern, Role], ...] = ()
    """Roles of other makes laid on the same cloth in the same lay."""

    @property
    def has_pieces(self) -> bool:
        """The role has outlines, so it can be laid out."""
        return bool(self.pattern.pieces_for(self.make.view, self.make.size, self.role))

    @property
    def ask(self) -> tuple[object, ...]:
        """The same for questions with one answer, whichever make puts them.

        Patterns count by identity: hashing all their outlines takes longer than asking.
        """
        make, label = self.make, self.label and self.label.nm
        others = [(id(pattern), m.view, m.size, role) for m, pattern, role in self.beside]
        return (
            *(id(self.pattern), make.view, make.size, self.role, self.width.nm, label),
            *(self.nap, self.spots, self.patches, self.outline, self.repeat, self.kind),
            *(self.gap.nm, self.times, *others),
        )


class Asked:
    """A question to be looked up by what it asks; it keeps the records it is told apart by."""

    __slots__ = ("_ask", "question")

    def __init__(self, question: Question) -> None:
        self.question = question
        self._ask = question.ask

    def __hash__(self) -> int:
        return hash(self._ask)

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Asked) and self._ask == other._ask


@dataclass(frozen=True, slots=True)
class WantedLay:
    """A lay somebody wants; pass `problem` and `kind` to `lay.solve.solve`."""

    key: str
    source: Question | Problem
    kind: LayKind | None

    @property
    def problem(self) -> Problem:
        """What the solver is asked; put together only where the lay is not kept yet."""
        return self.source if isinstance(self.source, Problem) else problem_of(self.source)


def question_for(make: Make, pattern: Pattern, role: Role, cloth: Cloth) -> Question:
    """The question this cloth puts, with its flaws and outline as they will be once washed."""
    lost_length, lost_width = shrinkage(cloth)
    along, across = 1 - lost_length / 100, 1 - lost_width / 100
    return Question(
        make=make,
        pattern=pattern,
        role=role,
        width=washed_usable_width(cloth),
        nap=cloth.nap,
        label=cloth.width,
        spots=tuple(Spot(f.x * along, f.y * across, f.radius) for f in cloth.flaws if not f.points),
        patches=tuple(
            tuple((x * along, y * across) for x, y in f.points) for f in cloth.flaws if f.points
        ),
        outline=tuple((x * along, y * across) for x, y in cloth.outline),
        repeat=repeat_of(
            cloth.repeat_length.mm * along, cloth.repeat_width.mm * across, cloth.half_drop, role
        ),
    )


def repeat_of(along: float, across: float, half_drop: bool, role: Role) -> Repeat | None:
    """The repeat, in mm of washed cloth, pieces of this role have to meet; None: none.

    A repeat too fine to be matched counts as none, that across by itself too.
    """
    if role not in MATCHED or along < FINEST_MM:
        return None
    across = round(across, 4) if across >= FINEST_MM else 0.0
    return Repeat(round(along, 4), across, half_drop and across > 0)


def problem_of(question: Question) -> Problem:
    """The pieces of the role set against the usable width: what the solver is asked.

    The width is rounded down to whole millimetres: no cloth is measured finer, and cloths
    that differ by less share one lay.
    """
    shapes = _shapes(question, question.make, question.pattern, question.role)
    for number, (make, pattern, role) in enumerate(question.beside, start=2):
        # Names only tell pieces of the same name apart; the makes may be renamed.
        more = _shapes(question, make, pattern, role)
        shapes += tuple(replace(shape, name=f"{shape.name} ({number})") for shape in more)
    meets = any(shape.match is not None for shape in shapes)
    problem = Problem(
        shapes=times_over(shapes, question.times),
        width=float(question.width.nm // NM_PER_MM),
        nap=question.nap,
        kind=question.kind or LayKind.OPEN,
        spots=question.spots,
        patches=question.patches,
        outline=question.outline,
        gap=question.gap.mm,
        repeat=question.repeat if meets else None,
    )
    if not problem.matches or not (problem.has_flaws or problem.outline):
        return problem
    # It brings a geometry library: nothing but a print on a flawed cloth or a remnant needs it.
    from stash.lay.slide import free_to_slide

    return free_to_slide(problem)


def _shapes(question: Question, make: Make, pattern: Pattern, role: Role) -> tuple[Shape, ...]:
    pieces = pattern.pieces_for(make.view, make.size, role)
    return shapes_of(pieces, meets_print=question.repeat is not None)


def wanted_lays(question: Question, book: KnownLays, seed: int = 1) -> Iterator[WantedLay]:
    """The lays the answer rests on, kept in `book` or not.

    Without pieces they are those of the block scaled to the chart, if there is one; the last of
    them may be known only once `book` holds the others.
    """
    found = _wanted_of(Asked(question), seed)
    if found is not None:
        yield from found
        return

    def laid(problem: Problem, kind: LayKind | None) -> float | None:
        lay = book.get(problem_key(problem, kind, seed))
        return None if lay is None else lay.need

    stood = stood_in(question)
    if stood is not None:
        yield from _block_lays(stood, laid, seed)


@lru_cache(maxsize=8192)  # a plan puts the same questions again and again
def _wanted_of(asked: Asked, seed: int) -> tuple[WantedLay, ...] | None:
    """The lays wanted; None where they depend on what is kept."""
    question = asked.question
    if question.has_pieces:
        key = problem_key(problem_of(question), question.kind, seed)
        return (WantedLay(key, question, question.kind),)
    stood = stood_in(question)
    if stood is None or is_charted(charted_need(question), stood):
        return ()
    return tuple(_block_lays(stood, _nothing, seed)) if stood.plain else None


def _block_lays(stood: StoodIn, laid: Laid, seed: int) -> Iterator[WantedLay]:
    for problem, kind in stood.lays(laid):
        yield WantedLay(problem_key(problem, kind, seed), problem, kind)


def _nothing(problem: Problem, kind: LayKind | None) -> None:
    """No lay is known."""
    del problem, kind


def missing_problems(
    questions: Iterable[Question], book: KnownLays, seed: int = 1
) -> tuple[WantedLay, ...]:
    """The different lays these questions need that `book` does not hold yet, in order."""
    found: dict[str, WantedLay] = {}
    for question in questions:
        for lay in wanted_lays(question, book, seed):
            if lay.key not in found and book.get(lay.key) is None:
                found[lay.key] = lay
    return tuple(found.values())


class Needs:
    """Answers questions of length, keeping every lay it works out in `book`."""

    def __init__(
        self,
        book: LayBook,
        seed: int = 1,
        system: System = System.METRIC,
        ahead: Callable[[Iterable[Question]], None] | None = None,
    ) -> None:
        self.book = book
        self.seed = seed
        self.system = system
        self._ahead = ahead
        self._answers: dict[str, Need] = {}
        self._answered: dict[Asked, Need] = {}

    def look_ahead(self, questions: Iterable[Question]) -> None:
        """Several questions will be put: their lays are worked out side by side, if they can be."""
        if self._ahead is not None:
            self._ahead(questions)

    def answer(self, question: Question) -> Need:
        """Laid out, charted, estimated, or unknown: the surest that can be had. Never raises.

        Without pieces the chart's own amount holds at its own width, and anywhere else a block
        scaled to it, laid out. Where no block will do, its amounts are all there is.
        """
        asked = Asked(question)
        need = self._answered.get(asked)
        if need is None:
            need = self._answered[asked] = self._answer(question)
        return need

    def _answer(self, question: Question) -> Need:
        if question.has_pieces:
            return self._solved(problem_of(question), question.kind)
        charted, stood = charted_need(question, self.system), stood_in(question)
        if stood is None or is_charted(charted, stood):
            return of_whole_cloth(charted, question)
        return self._estimated(stood) or of_whole_cloth(charted, question)

    def _estimated(self, stood: StoodIn) -> Need | None:
        found = stood.estimate(self._length)
        if found is None:
            return None if stood.plain else self._unfit(stood)
        low, likely, high = (Length.from_mm(mm) for mm in (found.low, found.likely, found.high))
        return Need(
            length=high,
            sureness=Sureness.ESTIMATED,
            why=stood.why(found, self.system),
            low=low,
            likely=likely,
            high=high,
        )

    def _unfit(self, stood: StoodIn) -> Need | None:
        """Why the block cannot be laid on this very cloth; None where there is no block."""
        likely = stood.likely(self._length)
        if likely is None:
            return None
        need = self._solved(likely, stood.question.kind)
        return replace(need, why=f"A block of this kind stood in for the pieces: {need.why}")

    def _length(self, problem: Problem, kind: LayKind | None) -> float | None:
        """Of the lay of a problem, mm; None where there is none."""
        need = self._solved(problem, kind)
        return None if need.lay is None else need.lay.need

    def _solved(self, problem: Problem, kind: LayKind | None) -> Need:
        key = problem_key(problem, kind, self.seed)
        if key not in self._answers:
            self._answers[key] = self._lay(problem, kind, key)
        return self._answers[key]

    def _lay(self, problem: Problem, kind: LayKind | None, key: str) -> Need:
        lay = self.book.get(key)
        if lay is None:
            # It brings the geometry libraries; a stash whose lays are kept never loads them.
            from stash.lay.solve import solve

            try:
                lay = solve(problem, kind=kind, seed=self.seed)
            except TooNarrowError as error:
                words = narrow_words(error, self.system)
                if error.doubled:  # it is not the cloth that is too narrow
                    return unknown(f"{words} {error.hint}")
                return unknown(words, too_narrow=error.piece)
            except NoRoomError as error:
                return unknown(error.message, no_room=error.piece)
            except LayError as error:
                return unknown(str(error))
            self.book.put(key, lay)
        return Need(
            length=Length.from_mm(lay.need),
            sureness=Sureness.LAID_OUT,
            why=f"Laid out {lay.kind} with the pieces of the pattern.",
            lay=lay,
        )


class Known(Needs):
    """Answers with a need found before; lays nothing out."""

    def __init__(self, need: Need) -> None:
        self.need = need

    def answer(self, question: Question) -> Need:
        """The need, whatever is asked."""
        del question
        return self.need
