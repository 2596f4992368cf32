"""Pattern pieces as DXF after ASTM D6673-10: a block each, lines told apart by layer.

Layer 1 is the boundary, 4 its notches, 6 the mirror line of a half, 7 the grain line, 15
annotation. Match points of a print have no place in the standard and are not written.
"""

from __future__ import annotations

import io
import re
from dataclasses import replace
from typing import TYPE_CHECKING

from ezdxf import units
from ezdxf.filemanagement import new

from stash.garment.pattern import Grain
from stash.geometry.ring import bounds
from stash.report.pieces_svg import piece_title

if TYPE_CHECKING:
    from collections.abc import Sequence

    from ezdxf.layouts.blocklayout import BlockLayout

    from stash.garment.pattern import Piece

GAP = 20.0
LAYERS = {
    "1": "piece boundary",
    "4": "notches",
    "6": "mirror line",
    "7": "grain line",
    "15": "annotation",
}


def pieces_dxf(pieces: Sequence[Piece], style: str) -> str:
    """The text of a DXF file (R2000, millimetres) with every piece drawn once."""
    document = new("R2000", units=units.MM)
    for name, what in LAYERS.items():
        document.layers.add(name).description = what
    space = document.modelspace()
    for line, text in enumerate((f"STYLE NAME: {style}", "UNITS: METRIC")):
        space.add_text(text, height=5, dxfattribs={"layer": "1", "insert": (0, 10 + 8 * line)})
    down = 0.0
    for number, piece in enumerate(pieces, 1):
        block = document.blocks.new(_block_name(number, piece))
        _draw(block, piece)
        _, _, _, high = bounds(piece.outline)
        space.add_blockref(block.name, (0, down), dxfattribs={"layer": "1"})
        down -= high + GAP
    out = io.StringIO()
    document.write(out)
    return out.getvalue()


def _block_name(number: int, piece: Piece) -> str:
    plain = re.sub(r"[^A-Za-z0-9]+", "_", f"{piece.name}_{piece.size}").strip("_")
    return f"{number}_{plain}"


def _draw(block: BlockLayout, piece: Piece) -> None:
    """One piece; our y runs down the sheet, that of DXF up."""
    ring = [(x, -y) for x, y in piece.outline]
    block.add_lwpolyline(ring, close=True, dxfattribs={"layer": "1"})
    for x, y in piece.notches:
        block.add_point((x, -y), dxfattribs={"layer": "4"})
    left, low, right, high = bounds(piece.outline)
    if piece.on_fold:
        on_fold = [x for x, y in piece.outline if y == 0]
        ends = (min(on_fold), 0), (max(on_fold), 0)
        block.add_line(*ends, dxfattribs={"layer": "6"})
    x, y, reach = (left + right) / 2, -(low + high) / 2, min(right - left, high - low) * 0.4
    ways = {
        Grain.LENGTHWISE: (((left + x) / 2, y), ((x + right) / 2, y)),
        Grain.CROSSWISE: ((x, y - reach), (x, y + reach)),
        Grain.BIAS: ((x - reach, y - reach), (x + reach, y + reach)),
    }
    if piece.grain in ways:
        block.add_line(*ways[piece.grain], dxfattribs={"layer": "7"})
    plain = piece if piece.grain is Grain.EITHER else replace(piece, grain=Grain.LENGTHWISE)
    texts = [
        f"PIECE NAME: {piece.name}",
        f"QUANTITY: {piece.copies}",
        f"ANNOTATION: {piece_title(plain)}",
        *([f"SIZE: {piece.size}"] if piece.size else []),
    ]
    for line, text in enumerate(texts):
        layer = "15" if text.startswith("ANNOTATION") else "1"
        place = (left, -low - 8 * (line + 1))
        block.add_text(text, height=5, dxfattribs={"layer": layer, "insert": place})
