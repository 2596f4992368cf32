"""Notions: elastic, thread, and what each garment kind usually takes."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction

from stash.units.length import ZERO, Length

THREAD_RATIOS: dict[str, Fraction] = {
    "301": Fraction(5, 2),
    "101": Fraction(4),
    "401": Fraction(11, 2),
    "304": Fraction(7),
    "503": Fraction(12),
    "504": Fraction(14),
    "512": Fraction(18),
    "516": Fraction(20),
    "406": Fraction(18),
    "602": Fraction(25),
    "605": Fraction(28),
    "606": Fraction(32),
}
"""Metres of thread per metre of seam by ISO 4915 stitch type: 301 lockstitch, 304 zigzag, 504
overlock. Carr & Latham, Technology of Clothing Manufacture, as quoted."""

HOME_THREAD_WASTE = Fraction(1, 5)
"""Thread ends and trials at home: 15-25 % (from memory)."""


def thread_needed(seam: Length, stitch: str = "301", waste: Fraction = HOME_THREAD_WASTE) -> Length:
    """Thread for a length of seam, waste included.

    Raises:
        KeyError: a stitch type that is not in `THREAD_RATIOS`.
    """
    return seam.times(THREAD_RATIOS[stitch] * (1 + waste))


class Elastic(StrEnum):
    """How firmly the elastic pulls."""

    FIRM = "firm"
    AVERAGE = "average"
    SOFT = "soft"


_SHORTER_INCHES = {Elastic.FIRM: 1, Elastic.AVERAGE: 2, Elastic.SOFT: 4}
"""Waist less 0-1, 2 and 3-5 inches: common practice, several sewing guides agree."""
_OVERLAP = Length.from_inches(1)


def elastic_cut(waist: Length, elastic: Elastic = Elastic.AVERAGE) -> Length:
    """The length of waist elastic to cut, an overlap of an inch to join it included.

    Firm elastic is joined edge to edge, without an overlap.
    """
    around = waist - Length.from_inches(_SHORTER_INCHES[elastic])
    return around if elastic is Elastic.FIRM else around + _OVERLAP


@dataclass(frozen=True, slots=True, kw_only=True)
class NotionRow:
    """One usual notion. `amount` counts things; `length` is per thing."""

    name: str
    amount: int = 1
    length: Length = ZERO
    waist: bool = False
    """Its length follows the wearer's waist: see `elastic_cut`."""
    note: str = ""


_WAIST_ELASTIC = NotionRow(
    name="elastic for the waist, 30 mm", waist=True, note="2 in less than the waist, 1 in to join"
)
_HOOK = NotionRow(name="hook and bar")


def _zip(centimetres: int, name: str = "zip") -> NotionRow:
    return NotionRow(name=name, length=Length.from_mm(10 * centimetres))


def _buttons(amount: int, ligne: str) -> NotionRow:
    """40 ligne are an inch (from memory)."""
    return NotionRow(name="button", amount=amount, note=f"{ligne} ligne")


NOTIONS: dict[str, tuple[NotionRow, ...]] = {
    "elastic trousers": (_WAIST_ELASTIC,),
    "tailored trousers": (_zip(18), _HOOK, _buttons(1, "24")),
    "shorts": (_zip(18), _buttons(1, "24")),
    "leggings": (_WAIST_ELASTIC,),
    "straight skirt": (_zip(20, "concealed zip"), _HOOK),
    "flared skirt": (_zip(20, "concealed zip"), _HOOK),
    "t-shirt": (),
    "sweatshirt": (),
    "turtleneck": (),
    "shirt": (_buttons(10, "16-18"),),
    "blouse": (_buttons(7, "18-20"),),
    "dress": (_zip(55, "concealed zip"), NotionRow(name="hook and eye")),
    "pinafore": (_buttons(2, "30-32"),),
    "jacket": (_buttons(4, "30-32"),),
    "coat": (_buttons(5, "40-45"), NotionRow(name="inside button", amount=1, note="24 ligne")),
    "pyjamas": (_buttons(6, "18-20"), _WAIST_ELASTIC),
    "bag": (),
}
"""By kind, the words of `garment.pattern.Kind`; counts and sizes are usual (from memory)."""
