"""Laying out combinations of ways, several at once, and saying what each still misses."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from stash.cloth.washing import washed_length
from stash.garment.pattern import Role
from stash.lay.errors import LayError
from stash.lay.key import problem_key
from stash.lay.problem import LayKind
from stash.pairing.case import case_for
from stash.pairing.gates import failed, gates
from stash.pairing.needs import Known, Needs, problem_of, question_for
from stash.pairing.verdict import margin_of, pair, with_repeat
from stash.pairing.ways.donors import distance
from stash.pairing.ways.freer import only_freer
from stash.pairing.ways.offer import applied
from stash.report.fit_records import Given, Rung
from stash.services.laying import drawn, judge
from stash.services.solving import doubtful, prepared
from stash.trade.part_words import Part, part_of
from stash.trade.ways import LEAST_SUIT
from stash.units.length import ZERO, Length

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    from stash.cloth.record import Cloth
    from stash.pairing.judgement import Need, Pairing
    from stash.pairing.needs import Question
    from stash.pairing.ways.cut import Cut, Way
    from stash.pairing.ways.search import Combination
    from stash.report.records import LaidOut
    from stash.services.asked import Asked
    from stash.services.laybook import StashLays
    from stash.services.progress import Cancelled, Progress
    from stash.services.stash import Stash
    from stash.services.whole import Whole


HAIR = Length.from_mm(0.05)


@dataclass(slots=True)
class Count:
    """Lays worked out so far, told on as one progress."""

    progress: Progress | None
    done: int = 0
    planned: int = 0

    def __call__(self, done: int, total: int, what: str) -> None:
        """Some of a batch are done."""
        if self.progress:
            whole = self.done + total
            self.progress(self.done + done, max(whole, self.planned), what)


class Fitting:
    """One role of one make on one cloth, cut in many ways."""

    def __init__(
        self,
        stash: Stash,
        whole: Whole,
        asked: Asked,
        book: StashLays,
        progress: Progress | None,
        cancelled: Cancelled | None,
    ) -> None:
        assert asked.cloth is not None
        self._stash, self._whole, self._asked, self.book = stash, whole, asked, book
        self.cloth: Cloth = asked.cloth
        self.count = Count(progress)
        self.cancelled = cancelled
        free = whole.free_for(self.cloth, asked.make, asked.role)
        self.have = washed_length(free, self.cloth)
        self._needs: Needs | None = None
        self.cuts: dict[Combination, Cut] = {}
        self.ways: tuple[Way, ...] = ()
        self._done: list[Combination] = []

    def start(self, cut: Cut, ways: tuple[Way, ...]) -> None:
        """From now on combinations mean these ways, done to this cut."""
        self.ways = ways
        self.cuts = {(): cut}
        self._done = []

    def cut_of(self, combination: Combination) -> Cut:
        """The cut once these ways are taken."""
        if combination not in self.cuts:
            self.cuts[combination] = applied(self.cuts[()], self._ways(combination))
        return self.cuts[combination]

    def lay(self, combinations: Sequence[Combination]) -> list[float | None]:
        """What each still misses in nm, 0 or less where it fits; None: no lay, or a donor fails."""
        cuts = [self.cut_of(one) for one in combinations]
        self.prepare(question for cut in cuts for question in self._questions(cut))
        for combination in sorted(combinations, key=len):
            self._carry(combination)
        return [self.missing(cut) for cut in cuts]

    def _carry(self, combination: Combination) -> None:
        """Where fewer ways were laid shorter, take that lay for this combination too."""
        cut = self.cut_of(combination)
        best = self.need(cut)
        if cut.question.kind in (None, LayKind.OPEN):
            for other in self._done:
                need = self.need(self.cut_of(other))
                shorter = need.length is not None and (
                    best.length is None or need.length < best.length - HAIR
                )
                if shorter and only_freer(self._ways(other), self._ways(combination)):
                    best = self._taken(need, other, cut) or best
        if combination not in self._done:
            self._done.append(combination)

    def _ways(self, combination: Combination) -> list[Way]:
        return [self.ways[k] for k in combination]

    def _taken(self, need: Need, other: Combination, cut: Cut) -> Need | None:
        """The lay of `other` kept as one of `cut`, if the checker passes it and it is shorter."""
        from stash.pairing.ways.carry import carried  # the geometry libraries, as for a lay

        if need.lay is None:
            return None
        new = problem_of(cut.question)
        lay = carried(problem_of(self.cut_of(other).question), need.lay, new)
        before = self.need(cut).lay
        if lay is None or (before is not None and lay.need >= before.need):
            return None
        assert self._needs is not None
        self.book.put(problem_key(new, cut.question.kind, self._stash.settings.seed), lay)
        self._needs = Needs(self.book, self._stash.settings.seed, self._stash.settings.system)
        return self.need(cut)

    def prepare(self, questions: Iterable[Question]) -> Needs:
        """Work out the lays of these questions that are not kept, and answer from them."""
        questions = list(questions)
        doubtful(self._stash, questions, self.book)
        self._needs = prepared(
            self._stash,
            questions,
            book=self.book,
            progress=self.count,
            cancelled=self.cancelled,
        )
        self.count.done += len(questions)
        return self._needs

    def serves(self, cut: Cut) -> float | None:
        """How well the other cloths of this cut suit their parts, 0-1; None where one will not do.

        One will do when it is right by every hard ask, large enough, and not a poor choice.
        """
        questions = self._given_questions(cut)
        system = self._stash.settings.system
        for number, question in questions.items():
            role = self._judged_as(question)
            case = case_for(self._whole.cloths[number], question.pattern, role, system)
            if failed(gates(case)):
                return None
        self.prepare(questions.values())
        pairings = self.given_pairings(cut).values()
        if not all(p.verdict.can_be_cut and p.suit >= LEAST_SUIT for p in pairings):
            return None
        return min(p.suit for p in pairings)

    def missing(self, cut: Cut) -> float | None:
        """See `lay`; its lays are known."""
        need = self.need(cut)
        if need.length is None:
            return None
        if not all(p.verdict.can_be_cut for p in self.given_pairings(cut).values()):
            return None
        return (need.length + self._margin(cut, need) - self.have).nm

    def hopeless(self, combination: Combination) -> bool:
        """Proven without laying: its area, or the bound of its pieces, is more than there is."""
        cut = self.cut_of(combination)
        width = cut.question.width.mm
        if not cut.pieces or width <= 0:
            return True
        return not self._within(cut, cut.area / width) or not self._within(cut, _bound(cut))

    def _within(self, cut: Cut, length_mm: float | None) -> bool:
        """A need of at least so much may still fit."""
        if length_mm is None:
            return False
        settings, margin = self._stash.settings, 0.0
        if cut.spare_margin:
            margin = max(settings.margin_mm, length_mm * settings.margin_percent / 100)
        return length_mm + margin <= self.have.mm + 0.001

    def need(self, cut: Cut) -> Need:
        """Of the cloth itself, its print counted."""
        assert self._needs is not None
        return with_repeat(self._needs.answer(cut.question), self.cloth, self._asked.role)

    def _margin(self, cut: Cut, need: Need) -> Length:
        return margin_of(need, self._stash.settings) if cut.spare_margin else ZERO

    def _questions(self, cut: Cut) -> list[Question]:
        return [cut.question, *self._given_questions(cut).values()]

    def _given_questions(self, cut: Cut) -> Mapping[int, Question]:
        make, role = cut.question.make, self._asked.role
        return {
            number: question_for(
                make,
                replace(cut.question.pattern, pieces=pieces),
                role,
                self._whole.cloths[number],
            )
            for number, pieces in cut.given.items()
        }

    def given_pairings(self, cut: Cut) -> Mapping[int, Pairing]:
        """The verdict of every other cloth on its own part."""
        assert self._needs is not None
        make, whole = cut.question.make, self._whole
        return {
            number: pair(
                make,
                question.pattern,
                self._judged_as(question),
                whole.cloths[number],
                whole.free_for(whole.cloths[number], make, self._asked.role),
                Known(self._needs.answer(question)),
                self._stash.settings,
                person=whole.person_of(make),
            )
            for number, question in self._given_questions(cut).items()
        }

    def _judged_as(self, question: Question) -> Role:
        """Pocket bags may be of lining, as they usually are; the rest is asked as always."""
        pieces = question.pattern.pieces
        bags = all(part_of(piece.name) is Part.POCKET_BAG for piece in pieces)
        return Role.LINING if bags and self._asked.role is Role.MAIN else self._asked.role

    def rung(self, combination: Combination, way: Way | None, before: Rung | None) -> Rung:
        """The rung of a ladder; its lays are known."""
        cut = self.cut_of(combination)
        need = self.need(cut)
        wins = None
        if before is not None and before.need is not None and need.length is not None:
            wins = before.need - need.length
        return Rung(
            way=way,
            need=need.length,
            wins=wins,
            short=None if need.length is None else need.length - self.have,
            margin=self._margin(cut, need),
            given=tuple(self._given(cut)),
            laid=None if need.length is None else self._drawn(cut, need),
        )

    def _given(self, cut: Cut) -> Iterable[Given]:
        questions = self._given_questions(cut)
        for number, pairing in self.given_pairings(cut).items():
            cloth = self._whole.cloths[number]
            question = questions[number]
            asked = replace(self._asked, make=question.make, cloth=cloth, question=question)
            known = pairing.need.length is not None
            yield Given(
                cloth=cloth,
                pieces=tuple(piece.name for piece in question.pattern.pieces),
                pairing=pairing,
                apart=distance(self.cloth, cloth),
                laid=drawn(asked, question.pattern, pairing.need, pairing) if known else None,
            )

    def _drawn(self, cut: Cut, need: Need) -> LaidOut:
        asked = replace(self._asked, make=cut.question.make, question=cut.question)
        judged = judge(self._stash, self._whole, asked, need)
        return drawn(asked, cut.question.pattern, judged.need, judged)


def _bound(cut: Cut) -> float | None:
    """A length in mm no lay of its pieces can beat; None: there is no lay at all."""
    from stash.lay.bounds import bound_of  # the geometry libraries, wanted only to lay
    from stash.lay.forms import sheet_width
    from stash.lay.open_lay import open_copies

    problem = problem_of(cut.question)
    try:
        return bound_of(open_copies(problem), sheet_width(problem)).length
    except LayError:
        return None
