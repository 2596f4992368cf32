"""Any SVG as lines and writing in mm: nested drawings, clones and symbols included.

Layers may be hidden and still be a size, so hidden layers are read; hidden shapes are not.
"""

from __future__ import annotations

import copy
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from stash.errors import BadInputError
from stash.geometry.affine import Affine, scaled, shifted
from stash.intake.drawn import Drawing, Means, Writing
from stash.intake.svg_places import MM_PER_PX, fit, pixels, read_transform, styled, view_box
from stash.intake.svg_shapes import SHAPES, shape_strokes
from stash.intake.svg_text import local_name, parse_svg
from stash.intake.svg_titles import NOTCH

if TYPE_CHECKING:
    from pathlib import Path
    from xml.etree.ElementTree import Element

DEEPEST = 200
LONGEST = 300
"""Characters of a title or text that are read."""
MOST_DRAWN = 60_000
"""Elements, clones counted as often as they are drawn."""
LABELS = ("{http://www.inkscape.org/namespaces/inkscape}label", "label", "data-name")
_GROUPS = {"g", "a", "switch"}
_LEFT_OUT = {"image": "pictures", "foreignObject": "HTML", "script": "scripts"}


@dataclass(frozen=True, slots=True)
class _Spot:
    """An element and everything it inherits."""

    element: Element
    place: Affine
    layers: tuple[str, ...] = ()
    depth: int = 0
    label: str = ""
    clones: tuple[str, ...] = ()


def read_svg_drawing(path: Path) -> Drawing:
    """Every line and text of an SVG file.

    Raises:
        NotFoundError: no such file.
        BadInputError: it is no SVG, or holds something that cannot be read.
    """
    root = parse_svg(path)
    drawing = Drawing(path.name)
    named = {e.get("id", ""): e for e in root.iter() if e.get("id")}
    waiting = [_Spot(root, _whole_sheet(drawing, root))]
    seen = 0
    try:
        while waiting:
            spot = waiting.pop()
            seen += 1
            if seen > MOST_DRAWN:
                raise BadInputError("it draws too many things.", "Keep only the pieces in it.")
            if spot.depth > DEEPEST:
                raise BadInputError("its groups lie too deep in one another.", "Ungroup them.")
            # The last one in comes out first, and the drawing's own order is kept.
            waiting.extend(reversed(_met(drawing, named, spot)))
    except BadInputError as error:
        is_told = error.message.startswith(path.name)
        told = error.message if is_told else f"{path.name}: {error.message}"
        raise BadInputError(told, error.hint) from error
    return drawing


def _whole_sheet(drawing: Drawing, root: Element) -> Affine:
    """From the outermost view box to millimetres."""
    box = view_box(root)
    width, height = (pixels(root.get(side)) for side in ("width", "height"))
    if width and height and width > 0 and height > 0:
        unit = scaled(MM_PER_PX, MM_PER_PX)
        return unit.after(fit(root, width, height)) if box else unit
    drawing.true_size = False
    drawing.note("The file does not say how large it is: 96 of its units are taken for an inch")
    return scaled(MM_PER_PX, MM_PER_PX)


def _met(drawing: Drawing, named: dict[str, Element], spot: _Spot) -> list[_Spot]:
    """Keep what an element draws; return what is inside it."""
    element, name = spot.element, local_name(spot.element)
    if name in _LEFT_OUT:
        drawing.note(f"The file holds {_LEFT_OUT[name]}, which are not read")
        return []
    if name in SHAPES or name == "text":
        place = spot.place.after(read_transform(element.get("transform", "")))
        if name == "text":
            _write(drawing, element, place, spot)
        elif styled(element).get("display", element.get("display")) != "none":
            label, titled = _own_name(element)
            label = label if titled or not spot.label else spot.label
            for stroke in shape_strokes(element, place, label or spot.label):
                means = Means.NOTCH if stroke.label.lower() == NOTCH else stroke.means
                drawing.add(replace(stroke, layers=spot.layers, titled=titled, means=means))
        return []
    if name == "use":
        return _clone(drawing, named, spot)
    if name == "svg" or name in _GROUPS:
        return _inside(spot)
    return []


def _inside(spot: _Spot) -> list[_Spot]:
    """The children of a group or of a drawing within the drawing."""
    element, place, layers = spot.element, spot.place, spot.layers
    if spot.depth or local_name(element) != "svg":
        place = place.after(read_transform(element.get("transform", "")))
        label, titled = _own_name(element)
        # The id of a drawing or symbol is no layer's name.
        known = titled or local_name(element) != "svg"
        layers = (*layers, label) if label and known else layers
    if spot.depth and local_name(element) == "svg":
        place = place.after(_nested(element))
    return [
        _Spot(child, place, layers, spot.depth + 1, clones=spot.clones)
        for child in element
        if isinstance(child.tag, str)
    ]


def _nested(element: Element) -> Affine:
    """Where a drawing within the drawing lies."""
    corner = shifted(pixels(element.get("x")) or 0.0, pixels(element.get("y")) or 0.0)
    box = view_box(element)
    if box is None:
        return corner
    width = pixels(element.get("width")) or box[2]
    height = pixels(element.get("height")) or box[3]
    return corner.after(fit(element, width, height))


def _clone(drawing: Drawing, named: dict[str, Element], spot: _Spot) -> list[_Spot]:
    element = spot.element
    target = next((v for k, v in element.attrib.items() if k.rpartition("}")[2] == "href"), "")
    if not target.startswith("#"):
        drawing.note("The file points outside itself, which is not followed")
        return []
    meant = named.get(target[1:])
    if meant is None or target in spot.clones:
        drawing.note(f"A clone of {target[:40]} is left out: there is no such thing in the file")
        return []
    place = spot.place.after(read_transform(element.get("transform", "")))
    place = place.after(shifted(pixels(element.get("x")) or 0.0, pixels(element.get("y")) or 0.0))
    own, titled = _own_name(element)
    if local_name(meant) in ("symbol", "svg"):
        # SVG 1.1, 5.6: a symbol becomes a drawing of its own, as large as the clone says.
        meant = copy.copy(meant)
        meant.tag = "svg"
        for side in ("width", "height"):
            if element.get(side):
                meant.set(side, element.get(side, ""))
    layers = (*spot.layers, own) if own else spot.layers
    clones = (*spot.clones, target)
    label = own if titled or local_name(meant) in SHAPES else ""
    return [_Spot(meant, place, layers, spot.depth + 1, label, clones)]


def _own_name(element: Element) -> tuple[str, bool]:
    """What an element is called, and whether that is a title."""
    for child in element:
        if isinstance(child.tag, str) and local_name(child) == "title":
            return " ".join("".join(child.itertext()).split())[:LONGEST], True
    for key in LABELS:
        if element.get(key):
            return element.get(key, "")[:LONGEST], False
    return element.get("id", "")[:LONGEST], False


def _write(drawing: Drawing, element: Element, place: Affine, spot: _Spot) -> None:
    """Keep a text; every line that begins at a place of its own is a text."""
    x, y = (pixels((element.get(k) or "0").split()[0]) or 0.0 for k in ("x", "y"))
    lines = [(element.text or "", x, y)]
    for span in element:
        if not isinstance(span.tag, str) or local_name(span) == "title":
            continue
        words = "".join(span.itertext())
        if span.get("x") or span.get("y") or span.get("dy"):
            across = pixels((span.get("x") or "").split(" ")[0])
            down = pixels((span.get("y") or "").split(" ")[0])
            x, y = (x if across is None else across), (y if down is None else down)
            lines.append((words, x, y))
        else:
            lines[-1] = (lines[-1][0] + words, *lines[-1][1:])
        lines[-1] = (lines[-1][0] + (span.tail or ""), *lines[-1][1:])
    for text, across, down in lines:
        if text.strip():
            at = place((across, down))
            drawing.writings.append(Writing(" ".join(text.split())[:LONGEST], at, spot.layers))
