"""Reading shapes written as words: corners, points, and the flaws of a cloth."""

from __future__ import annotations

import json
import re

from stash.cloth.record import Flaw
from stash.errors import BadInputError
from stash.units.parse_length import parse_length

Points = tuple[tuple[float, float], ...]

_MM = re.compile(r"([0-9.]+)\s*mm")
_CORNERS = "corners "
_FLAW_HINT = "Write it like: 80 cm along, 40 cm across, 3 cm: ink."


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


def read_outline(text: str) -> Points:
    """The corners of a remnant in mm, along and across: `0 0, 900 0, 900 600, 0 640`."""
    try:
        corners = read_points(text)
    except BadInputError:
        corners = ()
    if len(corners) < 3 or not all(0 <= v < 1e6 for corner in corners for v in corner):
        raise BadInputError(
            f"'{text[:40]}' is not an outline.", "Write corners in mm: 0 0, 900 0, 900 600, 0 640."
        )
    return corners


def read_flaws(text: str) -> tuple[Flaw, ...]:
    """Places to keep clear: `80 cm along, 40 cm across, 3 cm: ink; corners 0 0, 9 0, 9 9: tear`.

    What it is may stand in double quotes, and may then hold anything.
    """
    found = []
    rest = text
    while rest.strip():
        place, what, rest = _first(rest)
        found.append(_flaw(place, what))
    return tuple(found)


def _first(text: str) -> tuple[str, str, str]:
    """Where the first flaw is, what it is, and the text after it."""
    place, colon, rest = text.partition(":")
    if ";" in place or not colon:
        place, _, rest = text.partition(";")
        return place.strip(), "", rest
    quoted = rest.lstrip()
    if quoted.startswith('"'):
        try:
            what, end = json.JSONDecoder().raw_decode(quoted)
        except ValueError:
            end = 0
        after = quoted[end:].lstrip()
        if end and (not after or after.startswith(";")):
            return place.strip(), str(what), after[1:]
    what, _, rest = rest.partition(";")
    return place.strip(), what.strip(), rest


def _flaw(place: str, what: str) -> Flaw:
    what = what or "flaw"
    if place.startswith(_CORNERS):
        return Flaw.cornered(read_outline(place.removeprefix(_CORNERS)), what)
    parts = [part.strip() for part in place.split(",")]
    if len(parts) != 3 or not parts[0].endswith("along") or not parts[1].endswith("across"):
        raise BadInputError(f"'{place}' is not a flaw.", _FLAW_HINT)
    along, across, radius = (
        read_mm(part.removesuffix(word).strip())
        for part, word in zip(parts, ("along", "across", ""), strict=True)
    )
    return Flaw(along, across, radius, what)
