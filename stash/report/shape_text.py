"""The flaws and the outline of a cloth as words; `intake.shape_words` reads them back."""

from __future__ import annotations

import json
import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

from stash.config import System
from stash.report.written import number, points
from stash.units.format_length import Measure, show_length
from stash.units.length import Length

if TYPE_CHECKING:
    from stash.cloth.record import Flaw

Points = tuple[tuple[float, float], ...]


def exact_flaws(flaws: tuple[Flaw, ...]) -> str:
    """In mm with every digit, for a file that is read again."""
    return "; ".join(
        f"{_exact_place(flaw)}: {json.dumps(flaw.what, ensure_ascii=False)}" for flaw in flaws
    )


def _exact_place(flaw: Flaw) -> str:
    if flaw.points:
        return f"corners {exact_outline(flaw.points)}"
    x, y, radius = (number(part) for part in (flaw.x, flaw.y, flaw.radius))
    return f"{x} mm along, {y} mm across, {radius} mm"


def exact_outline(outline: Points) -> str:
    """The corners in mm with every digit."""
    return f"{points(outline)} mm" if outline else ""


def flaws_text(flaws: tuple[Flaw, ...], system: System) -> str:
    """As a tape measures them: `80 cm along, 40 cm across, 3 cm radius: ink`."""
    return "; ".join(_flaw(flaw, system) for flaw in flaws)


def _flaw(flaw: Flaw, system: System) -> str:
    if flaw.points:
        place = f"corners {outline_text(flaw.points, system)}"
    else:
        x, y, radius = (tape(part, system) for part in (flaw.x, flaw.y, flaw.radius))
        place = f"{x} along, {y} across, {radius} radius"
    return place if flaw.what == "flaw" else f"{place}: {_plain(flaw.what)}"


def outline_text(outline: Points, system: System) -> str:
    """The corners as a tape measures them: `0 0, 90 0, 90 60, 0 64 cm`."""
    if not outline:
        return ""
    by = _CORNERS[system]
    corners = points(tuple((by.of(x), by.of(y)) for x, y in outline))
    return f"{corners} {by.unit}"


@dataclass(frozen=True, slots=True)
class _By:
    """How finely corners are written, and in what."""

    mm: float
    digits: int
    unit: str

    def of(self, length: float) -> float:
        """A length in mm, in this unit."""
        return round(length / self.mm, self.digits) + 0.0


_CORNERS = {System.METRIC: _By(10, 1, "cm"), System.IMPERIAL: _By(25.4, 2, "in")}


def tape(length: float, system: System) -> str:
    """A length in mm as text: centimetres to the millimetre, or inches in sixteenths."""
    if system is System.IMPERIAL and length >= _FINEST_INCH:
        return show_length(Length.from_mm(length), system, Measure.SMALL)
    if length >= 1 or not length:
        return f"{number(_CORNERS[System.METRIC].of(length))} cm"
    return f"{number(length)} mm"


_FINEST_INCH = 25.4 / 16


def _plain(what: str) -> str:
    """What it is; in quotes where it might be read as something else without."""
    plain = what == what.strip() != "" and what.isprintable() and not _SIGNS.search(what)
    return what if plain else json.dumps(what, ensure_ascii=False)


_SIGNS = re.compile(r'[;,"]|corners', re.IGNORECASE)
"""What a reader takes for the end of a flaw, or for another."""
