"""Where and how large things are in an SVG: units, view boxes, nested transforms."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from stash.errors import BadInputError
from stash.geometry.affine import Affine, scaled, shifted, turned

if TYPE_CHECKING:
    from collections.abc import Mapping
    from xml.etree.ElementTree import Element

MM_PER_PX = 25.4 / 96
"""CSS Values and Units: one inch is 96 px, 72 pt, 6 pc."""
_PX_PER: dict[str, float] = {
    "": 1.0,
    "px": 1.0,
    "in": 96.0,
    "pt": 96 / 72,
    "pc": 16.0,
    "mm": 96 / 25.4,
    "cm": 96 / 2.54,
    "q": 96 / 101.6,
}
_NUMBER = r"[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?"
_LENGTH = re.compile(rf"({_NUMBER})\s*([a-zA-Z%]*)")
_STEP = re.compile(r"[\s,]*([a-zA-Z]+)\s*\(([^()]*)\)")
_LONGEST = 60
"""Characters of a length; more is none."""
_NUMBERS = re.compile(_NUMBER)
_COUNTS = {
    "matrix": (6,),
    "translate": (1, 2),
    "scale": (1, 2),
    "rotate": (1, 3),
    "skewX": (1,),
    "skewY": (1,),
}


def read_transform(text: str) -> Affine:
    """The map of a `transform` attribute.

    Raises:
        BadInputError: It is not a list of the six functions SVG knows.
    """
    text = text.rstrip(" ,\t\r\n")
    total, at = Affine(), 0
    while at < len(text):
        step = _STEP.match(text, at)
        if step is None:
            raise _unread(text)
        total = total.after(_step(step[1], step[2], text))
        at = step.end()
    return total


def _step(name: str, arguments: str, text: str) -> Affine:
    values = [float(v) for v in _NUMBERS.findall(arguments)]
    if len(values) not in _COUNTS.get(name, ()):
        raise _unread(text)
    if name == "matrix":
        return Affine(*values)
    if name == "translate":
        return shifted(values[0], values[1] if len(values) > 1 else 0.0)
    if name == "scale":
        return scaled(values[0], values[-1])
    if name == "rotate":
        about = values[1:] or [0.0, 0.0]
        return shifted(*about).after(turned(values[0])).after(shifted(-about[0], -about[1]))
    lean = turned(values[0])
    slope = lean.b / lean.a if lean.a else 0.0
    return Affine(c=slope) if name == "skewX" else Affine(b=slope)


def _unread(text: str) -> BadInputError:
    return BadInputError(
        f"a transform cannot be read ({text[:1000].strip()[:40]}).",
        "Apply it in the drawing program.",
    )


def pixels(text: str | None, whole: float = 0.0) -> float | None:
    """A length attribute in px; a percentage is of `whole`. None: it is not a real length."""
    found = _LENGTH.fullmatch((text or "").strip()[:_LONGEST])
    if found is None:
        return None
    unit = found[2].lower()
    if unit == "%":
        return float(found[1]) / 100 * whole if whole else None
    return float(found[1]) * _PX_PER[unit] if unit in _PX_PER else None


def view_box(element: Element) -> tuple[float, float, float, float] | None:
    """Left, top, width and height of what is seen, if it is said and not empty."""
    values = [float(v) for v in _NUMBERS.findall(element.get("viewBox", ""))]
    if len(values) != 4 or values[2] <= 0 or values[3] <= 0:
        return None
    return values[0], values[1], values[2], values[3]


def fit(element: Element, width: float, height: float) -> Affine:
    """How the view box of an element is laid into a field of this size (SVG 1.1, 7.8)."""
    box = view_box(element)
    if box is None:
        return Affine()
    left, top, wide, high = box
    across, down = width / wide, height / high
    words = element.get("preserveAspectRatio", "xMidYMid meet").split()
    align = next((w for w in words if w not in ("defer", "meet", "slice")), "xMidYMid")
    if align == "none":
        return scaled(across, down).after(shifted(-left, -top))
    one = max(across, down) if "slice" in words else min(across, down)
    part = {"min": 0.0, "mid": 0.5, "max": 1.0}
    x = (width - wide * one) * part.get(align[1:4].lower(), 0.5)
    y = (height - high * one) * part.get(align[5:8].lower(), 0.5)
    return shifted(x, y).after(scaled(one, one)).after(shifted(-left, -top))


def styled(element: Element) -> Mapping[str, str]:
    """The declarations of a `style` attribute."""
    pairs = (part.partition(":") for part in element.get("style", "").split(";"))
    return {key.strip().lower(): value.strip().lower() for key, _, value in pairs}
