"""Ways to make a role of a make fit a cloth that is too short or too narrow for it."""

from __future__ import annotations

from contextlib import nullcontext
from dataclasses import replace
from typing import TYPE_CHECKING

from stash.errors import BadInputError
from stash.pairing.judgement import Verdict
from stash.pairing.shortfall import buying_questions, shortfall
from stash.pairing.ways.donors import donor_way, insides, ranked
from stash.pairing.ways.offer import LeftOut, Setting, Wishes, offers
from stash.pairing.ways.search import WaySearch
from stash.report.fit_records import FitIn
from stash.services.asked import asked_of
from stash.services.careful import look_longer
from stash.services.fitting import Fitting
from stash.services.known import refuse_without_pieces
from stash.services.laybook import StashLays
from stash.services.laying import judge
from stash.services.makes import get_make
from stash.services.pairing import chosen_role
from stash.services.whole import read_whole
from stash.trade.ways import WayKind
from stash.units.parse_length import parse_length

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Sequence
    from contextlib import AbstractContextManager

    from stash.garment.pattern import Role
    from stash.lay.problem import LayKind
    from stash.pairing.judgement import BuyWidth
    from stash.pairing.ways.cut import Way
    from stash.pairing.ways.search import Combination, Outcome
    from stash.report.fit_records import Rung
    from stash.services.asked import Asked
    from stash.services.progress import Cancelled, Ending, Progress
    from stash.services.stash import Stash
    from stash.services.whole import Whole
    from stash.units.length import Length

SECONDS = 4.0
"""How long to look for a shorter lay before anything is changed."""
OFFERED = 2
"""Other cloths offered for each part that may come from one, those that cost least first."""
NEARLY = 0.03
"""What misses no more than this share of the need may still be found by looking longer."""


def fit_in(
    stash: Stash,
    ref: str,
    cloth: str,
    role: Role | str | None = None,
    *,
    wishes: Wishes | None = None,
    kind: LayKind | None = None,
    careful: float | None = None,
    progress: Progress | None = None,
    cancelled: Cancelled | None = None,
    ending: Ending | None = None,
) -> FitIn:
    """Look for the ways that make it fit at the least cost to the garment.

    Args:
        stash: The stash.
        ref: Name or number of the make.
        cloth: Name or number of the cloth.
        role: The role; None: the first the pattern is cut from.
        wishes: What the person rules out or allows.
        kind: The kind of lay to start from; None: the shortest.
        careful: Seconds to look for a shorter lay of the pattern as it is; 0: none,
            None: a few.
        progress: Told how many lays are worked out.
        cancelled: Asked between lays.
        ending: How looking longer may be ended before its time; the ways are sought as before.

    Raises:
        BadInputError: The role has no pieces, or the cloth is not right for it whatever its size.
        StoppedError: `cancelled` said so; lays found until then are kept.
    """
    make = get_make(stash, ref)
    whole = read_whole(stash)
    asked = asked_of(stash, whole, make, chosen_role(whole, make, role), {"cloth": cloth})
    asked = asked.in_kind(kind)
    wishes = wishes or Wishes()
    _refuse(asked)
    fitting = Fitting(stash, whole, asked, StashLays(stash), progress, cancelled)
    setting = Setting(
        question=asked.question,
        cloth=fitting.cloth,
        person=whole.person_of(make),
        wishes=wishes,
        settings=stash.settings,
    )
    seconds = SECONDS if careful is None else careful
    return _Finding(stash, whole, asked, fitting, setting, seconds, ending or _never).answer()


def _never() -> AbstractContextManager[Callable[[], bool]]:
    return nullcontext(lambda: False)


def wishes_of(
    *,
    barred: Iterable[str] = (),
    ignore_nap: bool = False,
    shorter: str | None = None,
    seam: str | None = None,
) -> Wishes:
    """What the person says about it, lengths as typed: `3 cm`, `5/8 in`.

    Raises:
        BadInputError: A length that is none, or is not above nothing, or no such kind of way.
    """
    kinds = []
    for word in barred:
        if word not in list(WayKind):
            known = ", ".join(WayKind)
            raise BadInputError(f"{word!r} is no kind of change.", f"The kinds are {known}.")
        kinds.append(WayKind(word))
    return Wishes(
        barred=frozenset(kinds),
        ignore_nap=ignore_nap,
        shorter=_above_nothing(shorter),
        seam=_above_nothing(seam),
    )


def _above_nothing(text: str | None) -> Length | None:
    if not text:
        return None
    length = parse_length(text)
    if length.nm <= 0:
        raise BadInputError(f"{text!r} is not more than nothing.", "Type a length such as 15 mm.")
    return length


def _refuse(asked: Asked) -> None:
    refuse_without_pieces(asked.question, "so nothing can be laid otherwise")


class _Finding:
    """One search from beginning to end."""

    def __init__(
        self,
        stash: Stash,
        whole: Whole,
        asked: Asked,
        fitting: Fitting,
        setting: Setting,
        careful: float,
        ending: Ending,
    ) -> None:
        self.stash, self.whole, self.asked = stash, whole, asked
        self.fitting, self.setting, self.careful = fitting, setting, careful
        self.ending = ending
        if WayKind.SEARCH in setting.wishes.barred:
            self.careful = 0.0

    def answer(self) -> FitIn:
        """All of it."""
        fitting, cut = self.fitting, self.setting.cut
        fitting.start(cut, ())
        (gap,) = fitting.lay([()])
        before = fitting.rung((), None, None)
        pairing = judge(self.stash, self.whole, self.asked, fitting.need(cut))
        if pairing.verdict is Verdict.UNSUITED:
            bar = next(reason for reason in pairing.reasons if reason.gate and reason.mark == 0)
            raise BadInputError(
                f"{fitting.cloth.name} is not right for {self.asked.make.name}, however it is "
                f"cut: {bar.sentence}",
                f'stash pair "{self.asked.make.name}" sets it against the rest of the shelf.',
            )
        longer = gap is not None and gap > 0 and self.careful > 0
        looked = 0.0
        if longer:
            looked = self._look_longer(())
            (gap,) = fitting.lay([()])
        found = self._found(gap)
        first, now = before.need, fitting.need(cut).length
        won = first - now if longer and first is not None and now is not None else None
        return replace(found, pairing=pairing, search_won=won, seconds=looked)

    def _found(self, gap: float | None) -> FitIn:
        fitting = self.fitting
        if gap is not None and gap <= 0:
            return self._told((), None, (), ())
        ways, left = offers(self.setting)
        donors, no_donor = self._donors()
        ways = tuple(sorted((*ways, *donors), key=lambda way: (way.cost, way.name)))
        fitting.start(self.setting.cut, ways)
        singles = [(k,) for k in range(len(ways))]
        fitting.count.planned = fitting.count.done + len(singles)
        known = dict(zip([(), *singles], fitting.lay([(), *singles]), strict=True))
        search = WaySearch(ways, fitting.lay, fitting.hopeless, known)
        outcome = search.find()
        chosen = outcome.found
        if chosen is None:
            chosen = search.nearest() or ()
            if self._nearly(chosen, search):
                self._look_longer(chosen)
                if (gap := fitting.lay([chosen])[0]) is not None and gap <= 0:
                    outcome = replace(outcome, found=chosen)
        alone = self._alone(singles)
        return self._told(chosen, outcome, alone, (*left, *no_donor))

    def _nearly(self, chosen: Combination, search: WaySearch) -> bool:
        gap = search.missing.get(chosen)
        need = self.fitting.need(self.fitting.cut_of(chosen)).length
        return bool(self.careful and chosen and gap and need and gap <= NEARLY * need.nm)

    def _look_longer(self, combination: Combination) -> float:
        """How long was looked, in seconds."""
        question = self.fitting.cut_of(combination).question
        looked = seconds = self.careful
        count, cancelled = self.fitting.count, self.fitting.cancelled

        def told(share: float, best: float) -> bool:
            nonlocal looked
            del best
            count(round(share * seconds), round(seconds), "seconds of looking longer")
            if is_enough():
                looked = round(share * seconds, 1)
                return False
            return cancelled is None or not cancelled()

        with self.ending() as is_enough:
            look_longer(self.stash, question, self.fitting.book, seconds, told)
        return looked

    def _donors(self) -> tuple[list[Way], list[LeftOut]]:
        """The best other cloths for what is inside, each with a real lay and verdict."""
        if WayKind.DONOR in self.setting.wishes.barred:
            return [], [LeftOut(kind=WayKind.DONOR, why="You ruled it out.")]
        cut, cloth, today = self.setting.cut, self.fitting.cloth, self.stash.today()
        parts = insides(cut)
        if not parts:
            words = "No facing, pocket bag, yoke or collar lies hidden inside."
            return [], [LeftOut(kind=WayKind.DONOR, why=words)]
        cloths = ranked(cloth, self.whole.cloths.values(), today)
        found: list[Way] = []
        for inside in parts:
            able: list[Way] = []
            for donor in cloths:
                suit = self.fitting.serves(donor_way(inside, cloth, donor, today).apply(cut))
                if suit is not None:
                    able.append(donor_way(inside, cloth, donor, today, suit))
                if len(able) >= OFFERED:
                    break
            found += able
        if found:
            return found, []
        words = "No other cloth on the shelf is right and large enough for a part that is hidden."
        return [], [LeftOut(kind=WayKind.DONOR, why=words)]

    def _alone(self, singles: Sequence[Combination]) -> tuple[Rung, ...]:
        fitting = self.fitting
        base = fitting.rung((), None, None)
        return tuple(fitting.rung(one, fitting.ways[one[0]], base) for one in singles)

    def _ladder(self, chosen: Combination) -> tuple[Rung, ...]:
        """The pattern as it is, then one way more on each rung, the cheapest first."""
        fitting = self.fitting
        order = sorted(chosen, key=lambda k: (fitting.ways[k].cost, k))
        steps = [tuple(sorted(order[:count])) for count in range(len(order) + 1)]
        fitting.lay(steps)
        rungs = [fitting.rung((), None, None)]
        for step, k in zip(steps[1:], order, strict=True):
            rungs.append(fitting.rung(step, fitting.ways[k], rungs[-1]))
        return tuple(rungs)

    def _told(
        self,
        chosen: Combination,
        outcome: Outcome | None,
        alone: tuple[Rung, ...],
        left: tuple[LeftOut, ...],
    ) -> FitIn:
        fitting = self.fitting
        ladder = self._ladder(chosen)
        fits = ladder[-1].fits
        return FitIn(
            make=self.asked.make,
            cloth=fitting.cloth,
            role=self.asked.role,
            pairing=judge(self.stash, self.whole, self.asked, fitting.need(self.setting.cut)),
            have=fitting.have,
            search_won=None,
            seconds=0.0,
            ladder=ladder,
            alone=alone,
            fits=fits,
            least=outcome is None or outcome.least,
            cost=sum(fitting.ways[k].cost for k in chosen),
            laid=len(alone) + (outcome.laid if outcome else 0),
            left_out=left,
            buy=() if fits else self._to_buy(),
        )

    def _to_buy(self) -> tuple[BuyWidth, ...]:
        """What to buy new where nothing fits, for the pattern as it is."""
        make, role = self.asked.make, self.asked.role
        pattern = self.whole.pattern_of(make)
        questions = buying_questions(make, pattern, role, self.stash.settings)
        needs = self.fitting.prepare(questions)
        return shortfall(make, pattern, role, (), {}, needs, self.stash.settings).widths
