"""The need of a role known only by its chart, from lays of a block scaled to that chart."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from stash.cloth.record import USUAL_SELVEDGE
from stash.garment.blocks.block import block_of
from stash.garment.charts import serves, without_roundings
from stash.garment.pattern import Grain
from stash.lay.problem import LayKind, Problem
from stash.pairing.block_curve import BlockCurve
from stash.pairing.estimate import SCALES, UNLIKE, Cell, Guess, guess
from stash.pairing.plan_words import listed
from stash.pairing.shapes import shapes_of
from stash.trade.widths import LABEL_TOLERANCE, ONE_WAY_EXTRA
from stash.units.format_length import EIGHTH_YARD, Measure, show_length

if TYPE_CHECKING:
    from collections.abc import Iterator

    from stash.config import System
    from stash.garment.make import Make
    from stash.garment.pattern import ChartRow, Pattern, Piece, Role
    from stash.pairing.block_curve import Laid
    from stash.pairing.estimate import Curve
    from stash.pairing.needs import Question
    from stash.units.length import Length

SELVEDGES = USUAL_SELVEDGE.times(2)
SHOP_STEP = EIGHTH_YARD
"""Amounts are rounded up to this, or to the 10 cm that come near it."""


@dataclass(frozen=True, slots=True)
class StoodIn:
    """A question with the block that stands in for its pieces."""

    question: Question
    pieces: tuple[Piece, ...]
    rows: tuple[ChartRow, ...]

    @property
    def plain(self) -> bool:
        """Nothing but its width, nap, gap and kind of lay tells this cloth from another."""
        asked = self.question
        return not (asked.spots or asked.patches or asked.outline)

    @property
    def is_as_charted(self) -> bool:
        """The cloth is sold as wide as some charted amount is for; charts speak of labels."""
        return self.plain and bool(self._own_rows)

    @property
    def adds_for_nap(self) -> bool:
        """The cloth has nap, and all the chart says of its width is without."""
        return self.question.nap and not any(row.with_nap for row in self._own_rows)

    @property
    def _own_rows(self) -> tuple[ChartRow, ...]:
        return tuple(
            row for row in self.rows if abs(self._label.nm - row.width.nm) <= LABEL_TOLERANCE.nm
        )

    @property
    def _label(self) -> Length:
        """Width as sold, which is what charts speak of."""
        return self.question.label or self.question.width

    def why(self, found: Guess, system: System) -> str:
        """Where the estimate comes from, in one or two sentences."""
        narrow_first = sorted({row.width for row in self.rows})
        widths = [show_length(width, system, Measure.WIDTH) for width in narrow_first]
        kind = self.question.pattern.kind
        why = (
            f"A block of this kind ({kind}), drafted from body measures and scaled to the chart "
            f"at {listed(widths)}, was laid out in place of the pieces."
        )
        if found.disagreement > UNLIKE:
            why += (
                " The charted amounts agree with it to "
                f"{math.ceil(100 * found.disagreement)} % only."
            )
        return why

    @property
    def cells(self) -> tuple[Cell, ...]:
        """The charted amounts."""
        return tuple(
            Cell(
                width=(row.width - SELVEDGES).mm,
                least=max((row.amount - SHOP_STEP).mm, 1.0),
                most=row.enough.mm,
                nap=row.with_nap,
            )
            for row in self.rows
        )

    def lays(self, laid: Laid) -> Iterator[tuple[Problem, LayKind | None]]:
        """The lays the estimate rests on; that on a cloth which is not plain comes last.

        The last one is known only once `laid` knows the others.
        """
        for cell in self.cells:
            curve = self._fitted(cell)
            for problem in curve.problems(cell.width / scale for scale in SCALES):
                yield problem, curve.kind
        curve, width = self._asked, self.question.width.mm
        for problem in curve.problems(width / scale for scale in SCALES):
            yield problem, curve.kind
        if not self.plain and (found := self._guess(laid)) is not None:
            yield self._own(found), self.question.kind

    def estimate(self, laid: Laid) -> Guess | None:
        """The need in mm with its range; None where no scale of the block will do.

        On a cloth that is not plain the likely block is laid, and the range is as wide for
        its length as on a plain one.
        """
        found = self._guess(laid)
        if found is None:
            return None
        if self.plain:
            return self._bounded(found)
        own = laid(self._own(found), self.question.kind)
        if own is None:
            return None
        more = own / found.likely
        return replace(found, low=found.low * more, likely=own, high=found.high * more)

    def likely(self, laid: Laid) -> Problem | None:
        """The block as large as is likeliest, on this cloth: for looking at, not to cut by.

        None where there is no estimate.
        """
        found = self._guess(laid)
        return None if found is None else self._own(found)

    def _guess(self, laid: Laid) -> Guess | None:
        def fitted(cell: Cell) -> Curve:
            return lambda width: self._fitted(cell).need(width, laid)

        return guess(
            self.cells,
            fitted,
            lambda width: self._asked.need(width, laid),
            self.question.width.mm,
        )

    def _fitted(self, cell: Cell) -> BlockCurve:
        return BlockCurve(self.pieces, cell.nap, None, 0.0)

    @property
    def _asked(self) -> BlockCurve:
        """Where every charted amount is for nap, cloth without any is laid as if it had some.

        That is on the safe side, and halves the lays.
        """
        asked = self.question
        nap = asked.nap or all(row.with_nap for row in self.rows)
        return BlockCurve(self.pieces, nap, asked.kind, asked.gap.mm)

    def _bounded(self, found: Guess) -> Guess:
        """Within what the chart itself promises: wider cloth never needs more.

        With nap it promises no less than its amounts without and what is added for it.
        """
        asked, rows = self.question, zip(self.rows, self.cells, strict=True)
        if asked.kind is not None or asked.gap:
            return found
        enough, least, napped = [math.inf], [found.low], [found.high]
        for row, cell in rows:
            added = ONE_WAY_EXTRA.mm if asked.nap and not row.with_nap else 0.0
            if serves(row.width, self._label):
                enough.append(cell.most + added)
            if cell.width >= asked.width.mm and (asked.nap or not row.with_nap):
                least.append(cell.least)
            if cell.width >= asked.width.mm and added:
                napped.append(cell.most + added)
        high = min(*enough, max(napped))
        low = min(max(least), high)
        return replace(found, low=low, likely=min(max(found.likely, low), high), high=high)

    def _own(self, found: Guess) -> Problem:
        """The likely block on this very cloth."""
        asked = self.question
        pieces = tuple(_scaled(piece, found.along, found.across) for piece in self.pieces)
        return Problem(
            shapes=shapes_of(pieces, meets_print=False),
            width=float(math.floor(asked.width.mm)),
            nap=asked.nap,
            kind=asked.kind or LayKind.OPEN,
            spots=asked.spots,
            patches=asked.patches,
            outline=asked.outline,
            gap=asked.gap.mm,
        )


def stood_in(question: Question) -> StoodIn | None:
    """The question with its block; None where there are pieces, no chart or no block.

    Several makes at once, and roles laid beside others, are asked of real pieces only.
    """
    if question.times > 1 or question.beside:
        return None
    pieces = stand_ins(question.make, question.pattern, question.role)
    return StoodIn(question, pieces, _rows(question)) if pieces else None


def stand_ins(make: Make, pattern: Pattern, role: Role) -> tuple[Piece, ...]:
    """The block's pieces for a role known only by its chart; else none."""
    if pattern.pieces_for(make.view, make.size, role):
        return ()
    if not pattern.charts_for(make.view, make.size, role):
        return ()
    return block_of(pattern, make.size, role)


def _rows(question: Question) -> tuple[ChartRow, ...]:
    make = question.make
    rows = question.pattern.charts_for(make.view, make.size, question.role)
    return without_roundings(rows)


def _scaled(piece: Piece, along: float, across: float) -> Piece:
    """The piece scaled along and across the cloth; one that may lie either way stays."""
    if piece.grain is Grain.CROSSWISE:
        along, across = across, along
    elif piece.grain is not Grain.LENGTHWISE:
        return piece
    outline = tuple((round(x * along, 1), round(y * across, 1)) for x, y in piece.outline)
    return replace(piece, outline=outline)
