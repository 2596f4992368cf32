"""Any DXF as lines and writing in mm; piece by piece where it follows ASTM D6673.

ASTM D6673-10 (sewn-product pattern data, withdrawn 2019, still widely written) keeps each
piece in a block of its own and says by the number of a layer what a line means. In any other
DXF every closed line may be a piece.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from ezdxf import path as dxf_path
from ezdxf.disassemble import recursive_decompose
from ezdxf.entities.insert import Insert
from ezdxf.entities.mtext import MText
from ezdxf.entities.text import Text

from stash.errors import BadInputError
from stash.geometry.affine import Affine, scaled
from stash.intake.drawn import Drawing, Means, Stroke, Writing
from stash.intake.dxf_layers import LAYERS, cut_words, grading_note, mm_of_units, said_pairs
from stash.intake.dxf_text import UNREADABLE, open_dxf

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator
    from pathlib import Path

    from ezdxf.document import Drawing as Document
    from ezdxf.entities.dxfentity import DXFEntity

FLAT_MM = 0.2
MOST_DRAWN = 40_000
"""Things drawn, those in blocks as often as the block is."""
_MM_PER = {1: 25.4, 2: 304.8, 4: 1.0, 5: 10.0, 6: 1000.0, 10: 914.4, 13: 0.001, 14: 100.0}
"""Millimetres by the number of $INSUNITS."""
_USUAL = (1, 4, 5)
"""Inches, millimetres, centimetres; others are rarely meant where pieces are drawn."""
_LINES = {"POLYLINE", "LWPOLYLINE", "LINE"}
_SKIPPED = {"INSERT", "TEXT", "MTEXT", "ATTDEF", "ATTRIB", "DIMENSION", "HATCH", "POINT", "IMAGE"}


def read_dxf_drawing(path: Path, unit_mm: float | None = None) -> Drawing:
    """Every line and text of a DXF file.

    Args:
        path: The file.
        unit_mm: Millimetres of one unit, where the file does not say it.

    Raises:
        NotFoundError: no such file.
        BadInputError: it is no DXF, or holds something that cannot be read.
    """
    document = open_dxf(path)
    drawing = Drawing(path.name, unit_may_be_said=True)
    try:
        _check_amount(path.name, document)
        scale = _scale(drawing, document, unit_mm)
        blocks = [block for block in document.blocks if _is_piece(block)]
        if blocks:
            for block in blocks:
                _read_piece(drawing, block.name, list(block), scale)
        else:
            _read_plain(drawing, document, scale)
    except UNREADABLE as error:
        raise BadInputError(
            f"{path.name} holds something that cannot be read ({error}).",
            "Save only the outlines of the pieces, as polylines.",
        ) from error
    return drawing


def _check_amount(file: str, document: Document) -> None:
    """Refuse blocks within blocks that would draw without end."""
    amounts: dict[str, int] = {}

    def amount(name: str, above: tuple[str, ...]) -> int:
        if name in above or len(above) > 40:
            raise BadInputError(f"{file} draws a block within itself.", "Explode its blocks.")
        if name not in amounts and name in document.blocks:
            amounts[name] = total(document.blocks[name], (*above, name))
        return amounts.get(name, 0)

    def total(entities: Iterable[DXFEntity], above: tuple[str, ...]) -> int:
        count = 0
        for entity in entities:
            count += 1
            if isinstance(entity, Insert):
                count += max(1, entity.mcount) * (1 + amount(entity.dxf.name, above))
        return count

    for layout in (document.modelspace(), *document.blocks):
        if total(layout, ()) > MOST_DRAWN:
            raise BadInputError(
                f"{file} holds more things than any pattern has.", "Keep only the pieces in it."
            )


def _scale(drawing: Drawing, document: Document, unit_mm: float | None) -> Affine:
    """From units of the file to millimetres, y turned downwards."""
    plain = (_plain(e) for layout in (document.modelspace(), *document.blocks) for e in layout)
    texts = [text for text in plain if text]
    pairs = said_pairs(texts)
    said = mm_of_units(pairs.get("units", ""))
    if graded := grading_note(texts, pairs):
        drawing.note(graded)
    header = document.header
    number = int(header.get("$INSUNITS", 0) or 0)
    unit = unit_mm or said or _MM_PER.get(number)
    if number not in _USUAL and unit is not None and not (unit_mm or said):
        drawing.note(
            f"One unit of the file is {unit:g} mm, as it says: say --unit mm, cm or in if its "
            "pieces come out far too large or too small"
        )
    if unit is None:
        drawing.true_size = False
        drawing.note("The file does not say its unit: taken for millimetres, say --unit in if not")
        unit = 1.0
    return scaled(unit, -unit)


def _is_piece(block: Iterable[DXFEntity]) -> bool:
    """A block with a boundary on layer 1 is a piece of the standard."""
    return any(
        entity.dxf.get("layer", "0") == "1" and entity.dxftype() in _LINES for entity in block
    )


def _read_piece(drawing: Drawing, owner: str, entities: list[DXFEntity], scale: Affine) -> None:
    """One block: its boundary, what its other lines mean, what its texts say."""
    texts = [(_plain(entity), entity) for entity in entities]
    pairs = said_pairs([text for text, _ in texts if text])
    name = pairs.get("piece name", "") or owner
    layers = (f"size {pairs['size']}",) if pairs.get("size") else ()
    for entity in entities:
        means = LAYERS.get(entity.dxf.get("layer", "0"), Means.INSIDE)
        if means is Means.NOTCH and entity.dxftype() == "POINT":
            x, y, _ = entity.dxf.get("location", (0.0, 0.0, 0.0))
            drawing.add(Stroke((scale((x, y)),), layers=layers, means=means, owner=owner))
        for stroke in _strokes(drawing, entity, scale):
            drawing.add(
                Stroke(
                    stroke.points,
                    closed=stroke.closed,
                    layers=layers,
                    label=name if means is Means.OUTLINE else "",
                    titled=means is Means.OUTLINE,
                    means=means,
                    owner=owner,
                )
            )
    words = [cut_words(pairs), pairs.get("annotation", "")]
    words += [text for text, _ in texts if text and ":" not in text]
    for word in filter(None, words):
        drawing.writings.append(Writing(word, (0.0, 0.0), layers, owner))


def _read_plain(drawing: Drawing, document: Document, scale: Affine) -> None:
    """Everything in the model space, blocks taken apart."""
    for entity in recursive_decompose(document.modelspace()):
        layer = entity.dxf.get("layer", "0")
        layers = () if layer == "0" else (layer,)
        if text := _plain(entity):
            x, y, _ = entity.dxf.get("insert", (0.0, 0.0, 0.0))
            drawing.writings.append(Writing(text, scale((x, y)), layers))
        for stroke in _strokes(drawing, entity, scale):
            drawing.add(Stroke(stroke.points, closed=stroke.closed, layers=layers))


def _plain(entity: DXFEntity) -> str:
    """The text of a text."""
    if isinstance(entity, MText):
        return " ".join(str(entity.plain_text()).split())
    return " ".join(entity.dxf.get("text", "").split()) if isinstance(entity, Text) else ""


def _strokes(drawing: Drawing, entity: DXFEntity, scale: Affine) -> Iterator[Stroke]:
    """The lines of an entity, curves made straight."""
    if entity.dxftype() in _SKIPPED:
        return
    try:
        path = dxf_path.make_path(entity)
    except TypeError:
        return
    # Looked at before curves are made straight, which takes without end where one is too large.
    drawing.check_reach(scale((p.x, p.y)) for p in path.control_vertices())
    for part in path.sub_paths():
        flat = [scale((p.x, p.y)) for p in part.flattening(FLAT_MM / abs(scale.a), segments=4)]
        closed = part.is_closed and len(flat) > 3
        yield Stroke(tuple(flat[:-1] if closed else flat), closed=closed)
