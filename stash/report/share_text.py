"""One role cut from several cloths, as text and for JSON."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from stash.report.columns import wrapped
from stash.report.lay_text import lay_text
from stash.report.plain import lay_json
from stash.units.enough import show_enough

if TYPE_CHECKING:
    from stash.config import System
    from stash.report.records import LaidOut, SharedOut


def share_text(shared: SharedOut, system: System, width: int = 80, height: int = 30) -> str:
    """What is cut from which cloth, what is missing, then the lay on each."""
    parts = [shared.title]
    for laid, pieces in zip(shared.parts, shared.pieces, strict=True):
        parts.append(wrapped(f"{_name(laid)}: {', '.join(pieces)}", width, hang=2))
    parts.append(wrapped(_verdict(shared, system), width))
    parts += [f"\n{lay_text(laid, system, width, height)}" for laid in shared.parts]
    return "\n".join(parts)


def _verdict(shared: SharedOut, system: System) -> str:
    if not shared.fits:
        return " ".join(_missing(shared, system))
    if not shared.moved:
        return "The first cloth is enough for all of it."
    least = "Less cannot be moved" if shared.least else "Nothing less was found that fits"
    return f"Later cloths take {shared.moved:.0%} of the area. {least}."


def _missing(shared: SharedOut, system: System) -> list[str]:
    """What is short, and on which cloth."""
    said = ["These cloths are not enough."]
    for laid, pieces in zip(shared.parts, shared.pieces, strict=True):
        if laid.need.length is None or laid.have is None or laid.have.nm >= laid.need.length.nm:
            continue
        shown = show_enough(laid.need.length, laid.have, system)
        said.append(
            f"{_name(laid)} would have to be {shown.needs} long for {', '.join(pieces)}, and "
            f"{shown.holds} are free: {shown.words}."
        )
    return said


def _name(laid: LaidOut) -> str:
    return laid.cloth.name if laid.cloth is not None else laid.title


def share_json(shared: SharedOut) -> dict[str, Any]:
    """`stash lay --json` with several cloths."""
    return {
        "title": shared.title,
        "fits": shared.fits,
        "least": shared.least,
        "moved": round(shared.moved, 4),
        "parts": [
            {"pieces": list(pieces), **lay_json(laid)}
            for laid, pieces in zip(shared.parts, shared.pieces, strict=True)
        ],
    }
