"""The width curve: how much a make needs at every width, and the shelf's cloths set against it."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING

from stash.cloth.washing import washed_usable_width
from stash.errors import BadInputError
from stash.pairing.blocked import stood_in
from stash.pairing.case import case_for
from stash.pairing.gates import failed, gates
from stash.pairing.judgement import Need, Sureness
from stash.pairing.needs import MATCHED, Known, Question, problem_of, question_for
from stash.pairing.verdict import pair
from stash.pairing.width_curve import (
    SELVEDGES,
    CurveDot,
    CurvePoint,
    WidthCurve,
    curve_points,
    letters,
    need_at,
    uncertain,
)
from stash.services.laybook import StashLays
from stash.services.pairing import chosen_role
from stash.services.solving import doubtful, prepared
from stash.services.subject import make_or_pattern
from stash.services.whole import read_whole
from stash.services.widening import keep_widened
from stash.units.length import ZERO, Length

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Sequence

    from stash.cloth.record import Cloth
    from stash.garment.make import Make
    from stash.garment.pattern import Pattern, Role
    from stash.lay.problem import LayKind
    from stash.lay.result import Lay
    from stash.services.progress import Cancelled, Progress
    from stash.services.stash import Stash
    from stash.services.whole import Whole

GRID = tuple(Length.from_mm(mm) - SELVEDGES for mm in range(700, 3001, 20))
"""Usable widths of labels from 70 to 300 cm, two centimetres apart."""
COARSE = 5
"""Every so many of them is tried first; what lies between only where the curve falls."""
MOST_LAYS = 60
"""Widths laid out for one curve."""
MOST_CLOTHS = 20
"""Widths of the shelf's cloths among them, spread evenly; the others stand against these."""
MOST_APART = 20
"""Cloths with a lay of their own, because of nap, flaws or their shape."""
AT_ONCE = 12
"""Widths tried between two looks at the curve."""
LAID = "widths laid out"


def width_curve(
    stash: Stash,
    ref: str,
    role: Role | str = "main",
    *,
    size: str = "",
    view: str = "",
    bare: bool = False,
    nap: bool | None = None,
    kind: LayKind | None = None,
    progress: Progress | None = None,
    cancelled: Cancelled | None = None,
) -> WidthCurve:
    """How much a role needs at widths from 70 to 300 cm, with every suitable cloth of the shelf.

    Every lay is kept, so that the same curve is quick the next time.

    Args:
        stash: The stash.
        ref: Name or number of a make, or of a pattern.
        role: The role.
        size: Of a pattern; a make has its own.
        view: Of a pattern; a make has its own.
        bare: `ref` is a pattern, whatever makes there are.
        nap: As if every cloth had nap, or none. None: the curve is laid without nap, and
            cloths that have some get a lay of their own.
        kind: How the cloth lies; None: whichever is shortest at each width.
        progress: Told how many widths are laid out.
        cancelled: Asked between lays.

    Raises:
        BadInputError: There is neither a piece nor a chart to tell a need at any width.
        StoppedError: `cancelled` said so; lays found until then are kept.
    """
    make = make_or_pattern(stash, ref, size=size, view=view, bare=bare)
    whole = read_whole(stash)
    chosen = chosen_role(whole, make, role)
    tracing = _Tracing(stash, whole, make, chosen, nap, kind, progress, cancelled)
    cloths = tracing.suitable()
    tracing.trace(cloths)
    points = curve_points(tracing.tried, GRID)
    if all(point.need is None for point in points):
        raise BadInputError(
            f"{make.name}, {chosen}, can be cut from no width up to 300 cm. {points[-1].why}",
            "Cut that piece in two with a seam, or add chart rows.",
        )
    return WidthCurve(
        title=f"{make.name}, {chosen}: need against width",
        make=make.name if make.id else None,
        pattern=tracing.pattern.name,
        view=make.view,
        size=make.size,
        role=chosen,
        kind=kind,
        nap=bool(nap),
        by_chart=tracing.by_chart,
        laid=len(tracing.tried),
        points=points,
        dots=tracing.dots(cloths, points),
    )


@dataclass
class _Tracing:
    """One curve being found."""

    stash: Stash
    whole: Whole
    make: Make
    role: Role
    nap: bool | None
    kind: LayKind | None
    progress: Progress | None
    cancelled: Cancelled | None
    tried: dict[Length, Need] = field(default_factory=dict)
    own: dict[int, Need] = field(default_factory=dict)
    """Needs of the cloths the curve does not speak for, by cloth id."""

    def __post_init__(self) -> None:
        self.book = StashLays(self.stash)
        self.pattern: Pattern = self.whole.pattern_of(self.make)
        self.by_chart = not self._question(GRID[0]).has_pieces
        self.laid = not self.by_chart or stood_in(self._question(GRID[0])) is not None
        self.done = 0

    def suitable(self) -> list[Cloth]:
        """The cloths no hard ask bars, by width."""
        system = self.stash.settings.system
        cloths = [
            cloth if self.nap is None else replace(cloth, nap=self.nap)
            for cloth in self.whole.cloths.values()
            if cloth.left and not failed(gates(case_for(cloth, self.pattern, self.role, system)))
        ]
        return sorted(cloths, key=lambda cloth: (self.at(cloth), cloth.name, cloth.id))

    def at(self, cloth: Cloth) -> Length:
        """Where a cloth stands along the widths."""
        if not self.by_chart:
            return washed_usable_width(cloth)
        stood = stood_in(question_for(self.make, self.pattern, self.role, cloth))
        by_label = stood is None or stood.is_as_charted
        return cloth.width - SELVEDGES if by_label else washed_usable_width(cloth)

    def trace(self, cloths: Sequence[Cloth]) -> None:
        """Find the needs: cloths of their own, then widths, closer where the curve falls."""
        apart = [cloth for cloth in cloths if self._own_lay(cloth)][:MOST_APART]
        asked = [
            replace(question_for(self.make, self.pattern, self.role, cloth), kind=self.kind)
            for cloth in apart
        ]
        for cloth, need in zip(apart, self._answers(asked), strict=True):
            self.own[cloth.id] = need
        widths = {self.at(cloth) for cloth in cloths if not self._own_lay(cloth)}
        if self.by_chart:
            self._try({*GRID, *widths})
            return
        every = -(-len(widths) // MOST_CLOTHS) or 1
        self._try({*GRID[::COARSE], *sorted(widths)[::every]})
        while (left := MOST_LAYS - len(self.tried)) > 0:
            closer = uncertain(curve_points(self.tried), min(AT_ONCE, left))
            if not closer:
                break
            self._try(closer)
        self._widen()

    def _widen(self) -> None:
        """Keep a narrower width's lay where none as short was found, as what is laid there."""
        best: Lay | None = None
        for width in sorted(self.tried):
            lay = self.tried[width].lay
            if lay is not None and best is not None and best.need < lay.need:
                question = self._question(width)
                if (wide := keep_widened(self.stash, question, best, self.book)) is not None:
                    lay, (self.tried[width],) = wide, self._answers([question])
            if lay is not None and (best is None or lay.need <= best.need):
                best = lay

    def dots(self, cloths: Sequence[Cloth], points: Sequence[CurvePoint]) -> tuple[CurveDot, ...]:
        """Each cloth with its verdict."""
        labels = letters(len(cloths))
        return tuple(
            self._dot(label, cloth, points) for label, cloth in zip(labels, cloths, strict=True)
        )

    def _dot(self, letter: str, cloth: Cloth, points: Sequence[CurvePoint]) -> CurveDot:
        at = self.at(cloth)
        point = None if self._own_lay(cloth) else need_at(points, at)
        if point is None:
            need, found_at = self.own.get(cloth.id, TOO_MANY), at
        else:
            need, found_at = self._need(point), point.found_at or at
        pairing = pair(
            self.make,
            self.pattern,
            self.role,
            cloth,
            self.whole.free_for(cloth, self.make, self.role),
            Known(need),
            self.stash.settings,
            person=self.whole.person_of(self.make),
            beside=self.whole.beside(self.make),
        )
        return CurveDot(
            letter=letter,
            cloth=cloth,
            at=at,
            pairing=pairing,
            found_at=found_at if need.length is not None else None,
            apart=self._apart(cloth),
        )

    def _need(self, point: CurvePoint) -> Need:
        tried = self.tried.get(point.found_at or point.usable)
        if tried is None or point.need is None:
            return Need(length=None, sureness=Sureness.UNKNOWN, why=point.why)
        return replace(tried, sureness=point.sureness, why=point.why)

    def _own_lay(self, cloth: Cloth) -> bool:
        """A lay on a plain width says nothing of this cloth."""
        if cloth.nap and not self.nap:
            return True
        narrow = self.at(cloth) < GRID[0]
        apart = cloth.flaws or cloth.outline or self._meets_print(cloth)
        return narrow or bool(self.laid and apart)

    def _meets_print(self, cloth: Cloth) -> bool:
        """Some piece has to lie on the repeat of its print."""
        return problem_of(question_for(self.make, self.pattern, self.role, cloth)).matches

    def _apart(self, cloth: Cloth) -> str:
        said = []
        if cloth.nap and not self.nap:
            said.append("nap")
        if cloth.flaws and self.laid:
            said.append("flaws")
        if cloth.outline and self.laid:
            said.append("no rectangle")
        if cloth.repeat_length and self.role in MATCHED:
            said.append("a print to match")
        if self.at(cloth) < GRID[0]:
            said.append("narrower than the curve")
        return ", ".join(said)

    def _question(self, usable: Length) -> Question:
        return Question(
            make=self.make,
            pattern=self.whole.pattern_of(self.make),
            role=self.role,
            width=usable,
            nap=bool(self.nap),
            label=usable + SELVEDGES,
            kind=self.kind,
        )

    def _try(self, widths: Iterable[Length]) -> None:
        new = sorted(width for width in widths if width > ZERO and width not in self.tried)
        needs = self._answers([self._question(width) for width in new])
        self.tried.update(zip(new, needs, strict=True))

    def _answers(self, questions: Sequence[Question]) -> list[Need]:
        doubtful(self.stash, questions, self.book)
        needs = prepared(
            self.stash,
            questions,
            book=self.book,
            progress=self._telling(),
            cancelled=self.cancelled,
        )
        self.done += len(questions)
        return [needs.answer(question) for question in questions]

    def _telling(self) -> Callable[[int, int, str], None] | None:
        """Progress over the whole curve; how many lays it takes shows only on the way."""
        if self.progress is None:
            return None
        tell, before = self.progress, self.done

        def told(done: int, total: int, what: str) -> None:
            del what
            tell(before + done, max(before + total, MOST_LAYS + len(self.own)), LAID)

        return told


TOO_MANY = Need(
    length=None,
    sureness=Sureness.UNKNOWN,
    why="Too many cloths want a lay of their own here: lay it on this one by itself.",
)
