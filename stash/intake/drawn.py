"""What is drawn on a sheet before anybody knows what it means: lines and writing, in mm.

x runs to the right and y down the sheet, as one sees it, whatever the file says.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from enum import StrEnum
from typing import TYPE_CHECKING

from stash.errors import BadInputError

if TYPE_CHECKING:
    from collections.abc import Iterable

Point = tuple[float, float]
Ring = tuple[Point, ...]

MOST_POINTS = 400_000
"""Points of one drawing; a pattern in a dozen sizes has a tenth of it."""
MOST_STROKES = 40_000
FARTHEST_MM = 1e6


class Means(StrEnum):
    """What a line stands for, where the file says it."""

    UNSAID = "unsaid"
    OUTLINE = "outline"
    GRAIN = "grain"
    FOLD = "fold"
    NOTCH = "notch"
    """A mark on the edge of a piece; it may be a single point."""
    INSIDE = "inside"
    """Sewing lines, drill holes: not cut as a piece of its own."""


@dataclass(frozen=True, slots=True)
class Stroke:
    """A line of straight parts."""

    points: Ring
    closed: bool = False
    """Its last point is joined to its first, which is not repeated."""
    layers: tuple[str, ...] = ()
    """Names of the layers and groups it lies in, the outermost first."""
    label: str = ""
    """Its own title or name."""
    titled: bool = False
    """The label is a title somebody wrote, not a name the drawing program gave."""
    means: Means = Means.UNSAID
    owner: str = ""
    """The block it belongs to, where the file keeps each piece by itself."""


@dataclass(frozen=True, slots=True)
class Writing:
    """A text and where it begins."""

    text: str
    at: Point
    layers: tuple[str, ...] = ()
    owner: str = ""


@dataclass(slots=True)
class Drawing:
    """Everything drawn in a file."""

    file: str
    strokes: list[Stroke] = field(default_factory=list)
    writings: list[Writing] = field(default_factory=list)
    notes: list[str] = field(default_factory=list)
    """What was left out or taken for something, each a sentence."""
    true_size: bool = True
    """The file says how large it is."""
    unit_may_be_said: bool = False
    """It is of a kind whose unit somebody may type."""
    points: int = 0

    def add(self, stroke: Stroke) -> None:
        """Keep a stroke; BadInputError when the drawing is no longer one of this world."""
        self.check_reach(stroke.points)
        self.points += len(stroke.points)
        if self.points > MOST_POINTS or len(self.strokes) >= MOST_STROKES:
            raise BadInputError(
                f"{self.file} holds more lines than any pattern has.",
                "Keep only the outlines of the pieces in it.",
            )
        if len(stroke.points) > 1 or (stroke.points and stroke.means is Means.NOTCH):
            self.strokes.append(stroke)

    def check_reach(self, points: Iterable[Point]) -> None:
        """Refuse points that lie on no sheet, or nowhere at all, with BadInputError."""
        numbers = [v for p in points for v in p]
        if not all(map(math.isfinite, numbers)):
            raise BadInputError(
                f"{self.file} holds a number that cannot be read.",
                "Save it again from the program it was drawn with.",
            )
        if not all(abs(v) <= FARTHEST_MM for v in numbers):
            raise BadInputError(
                f"{self.file} draws something farther than 1 km away.", "Check its scale."
            )

    def note(self, sentence: str) -> None:
        """Keep a remark, once."""
        if sentence not in self.notes:
            self.notes.append(sentence)
