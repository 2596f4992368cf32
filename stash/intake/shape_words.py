"""Reading shapes written as words: corners, points, and the flaws of a cloth."""

from __future__ import annotations

import json
import re
from fractions import Fraction

from stash.cloth.record import Flaw
from stash.errors import BadInputError
from stash.units.length import NM_PER_MM
from stash.units.parse_length import UNIT, parse_length

Points = tuple[tuple[float, float], ...]

_MM = re.compile(r"([0-9.]+)\s*mm")
_ROW = re.compile(rf"(.*?[0-9.])\s*({UNIT})?", re.DOTALL)
"""A row of numbers and the unit of all of them."""
_CORNERS = "corners "
_ANOTHER = re.compile(rf"\d\s*{UNIT}?\s*(along|across)?\s*,\s*[0-9.]|\bcorners\s+\d", re.IGNORECASE)
_CORNER_HINT = (
    "Write corners, once round, as plain numbers with one unit at the end: "
    "0 0, 90 0, 90 60, 0 64 cm."
)
_FLAW_HINT = (
    "Write it like: 80 cm along, 40 cm across, 3 cm radius: ink; or: corners 0 0, 9 0, 9 6 cm: tear"
)


def read_mm(text: str) -> float:
    """A length in millimetres; one written in mm keeps every digit."""
    plain = _MM.fullmatch(text.strip())
    length = parse_length(text).mm
    return float(plain[1]) if plain else length


def read_points(text: str) -> Points:
    """Points in mm, along and across, with commas between: `0 0, 900 0, 900 600`."""
    try:
        return tuple((float(x), float(y)) for x, y in (pair.split() for pair in text.split(",")))
    except ValueError:
        raise BadInputError(
            f"'{text[:40]}' is not a row of points.", "Write mm: 0 0, 900 0, 900 600."
        ) from None


def read_outline(text: str, bare: str = "") -> Points:
    """The corners of a remnant, along and across: `0 0, 90 0, 90 60, 0 64 cm`, in mm then.

    Args:
        text: What was written.
        bare: The unit of numbers without one; without it they are refused, since nobody can
            tell by looking whether cm, inches or mm were meant.

    Raises:
        BadInputError: anything else.
    """
    row = _ROW.fullmatch(text.strip())
    unit = row[2] or bare if row else ""
    if row is None or not unit:
        what = "has corners without a unit" if row else "is not an outline"
        raise BadInputError(f"'{text[:40]}' {what}.", _CORNER_HINT)
    try:
        numbers = read_points(row[1])
    except BadInputError:
        numbers = ()
    if len(numbers) < 3 or not all(0 <= v < 1e6 for corner in numbers for v in corner):
        raise BadInputError(f"'{text[:40]}' is not an outline.", _CORNER_HINT)
    scale = Fraction(parse_length(f"1 {unit}").nm, NM_PER_MM)
    return tuple((_scaled(x, scale), _scaled(y, scale)) for x, y in numbers)


def _scaled(number: float, scale: Fraction) -> float:
    """In mm, as exact as the digits that were written."""
    return float(Fraction(repr(number)) * scale)


def read_flaws(text: str, bare: str = "") -> tuple[Flaw, ...]:
    """Places to keep clear, with `;` between: round, `80 cm along, 40 cm across, 3 cm radius: ink`
    or `80cm,40cm,3cm`, or with corners, `corners 0 0, 9 0, 9 6 cm: tear`.

    What it is may stand in double quotes, and may then hold anything. `bare` is the unit of
    corners without one.

    Raises:
        BadInputError: anything else.
    """
    found = []
    rest = text
    while rest.strip():
        place, what, rest = _first(rest)
        found.append(_flaw(place, what, bare))
    return tuple(found)


def _first(text: str) -> tuple[str, str, str]:
    """Where the first flaw is, what it is, and the text after it.

    Raises:
        BadInputError: What it is goes on to say where another is, which nobody would see.
    """
    place, what, rest, quoted = _parted(text)
    if not quoted and _ANOTHER.search(what):
        raise BadInputError(
            f"'{what[:40]}' says where another flaw is.", "Put ; between two flaws, not a comma."
        )
    return place, what, rest


def _parted(text: str) -> tuple[str, str, str, bool]:
    """The place and the name of the first flaw, the rest, and whether the name is in quotes."""
    place, colon, rest = text.partition(":")
    if ";" in place or not colon:
        place, _, rest = text.partition(";")
        return place.strip(), "", rest, False
    quoted = rest.lstrip()
    if quoted.startswith('"'):
        try:
            what, end = json.JSONDecoder().raw_decode(quoted)
        except ValueError:
            end = 0
        after = quoted[end:].lstrip()
        if end and (not after or after.startswith(";")):
            return place.strip(), str(what), after[1:], True
    what, _, rest = rest.partition(";")
    return place.strip(), what.strip(), rest, False


def _flaw(place: str, what: str, bare: str) -> Flaw:
    plain = place.lower()
    if plain.startswith(_CORNERS):
        return Flaw.cornered(read_outline(plain.removeprefix(_CORNERS), bare), what or "flaw")
    parts = [part.strip() for part in plain.split(",")]
    if parts[0].endswith("across"):
        raise BadInputError(f"'{place[:40]}' says how far across it is first.", _FLAW_HINT)
    if len(parts) != 3:
        raise BadInputError(f"'{place[:40]}' is not a flaw.", _FLAW_HINT)
    try:
        along, across, radius = (
            _part(part, word)
            for part, word in zip(parts, ("along", "across", "radius"), strict=True)
        )
    except BadInputError as error:
        raise BadInputError(f"'{place[:40]}' is not a flaw: {error.message}", _FLAW_HINT) from error
    return Flaw(along, across, radius, what or "flaw")


def _part(part: str, word: str) -> float:
    """`80 cm along` in mm; the word may be missing, and 0 needs no unit."""
    length = part.removesuffix(word).strip()
    return 0.0 if length == "0" else read_mm(length)
