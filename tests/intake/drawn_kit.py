"""Short ways to write drawings for tests, and to read them."""

from __future__ import annotations

import zlib
from typing import TYPE_CHECKING

from shapely.geometry import Polygon

from stash.services.pattern_import import Said, look_at

if TYPE_CHECKING:
    from collections.abc import Sequence
    from pathlib import Path

    from stash.garment.pattern import Piece
    from stash.services.pattern_import import Look

NS = 'xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink"'
SHEET = 'width="800mm" height="600mm" viewBox="0 0 800 600"'


def svg(body: str, size: str = SHEET) -> str:
    """An SVG file."""
    return f"<svg {NS} {size}>{body}</svg>"


def look(folder: Path, text: str, pick: str = "", *, ending: str = ".svg", **said: str) -> Look:
    """A drawing as the importer sees it."""
    path = folder / f"drawing{ending}"
    path.write_text(text, encoding="utf-8")
    return look_at(path, Said(**said), pick)


def pieces(found: Look) -> dict[str, Piece]:
    """The pieces that can be used, by name."""
    return {one.name: one.piece for one in found.sheet.found if one.piece is not None}


def extent(piece: Piece) -> tuple[float, float]:
    """How long and how wide a piece is, in mm."""
    left, low, right, high = Polygon(piece.outline).bounds
    return right - left, high - low


def pdf(
    pages: Sequence[str],
    *,
    size: tuple[float, float] = (595.0, 842.0),
    layers: Sequence[str] = (),
    forms: Sequence[tuple[str, str]] = (),
    page_words: str = "",
) -> bytes:
    """A PDF written by hand (ISO 32000-1, 7.5): one description for each page, in points.

    Args:
        pages: The page descriptions.
        size: Width and height of every page.
        layers: Names of optional-content groups, `/L0`, `/L1` … in the descriptions.
        forms: Dictionary entries and description of forms, `/F0`, `/F1` ….
        page_words: More entries of every page.
    """
    objects: list[bytes] = [b"", b""]
    groups = [
        _add(objects, f"<< /Type /OCG /Name ({name}) >>".encode("latin-1")) for name in layers
    ]
    drawn = [
        _add(objects, _stream(text, f"/Type /XObject /Subtype /Form {words}"))
        for words, text in forms
    ]
    properties = " ".join(f"/L{i} {n} 0 R" for i, n in enumerate(groups))
    names = " ".join(f"/F{i} {n} 0 R" for i, n in enumerate(drawn))
    font = "<< /Type /Font /Subtype /Type1 /BaseFont /Helvetica >>"
    resources = f"<< /Properties << {properties} >> /XObject << {names} >> /Font << /H {font} >> >>"
    kids = []
    for text in pages:
        content = _add(objects, _stream(text, ""))
        box = f"/MediaBox [0 0 {size[0]} {size[1]}] {page_words}"
        words = f"/Parent 2 0 R {box} /Resources {resources} /Contents {content} 0 R"
        kids.append(_add(objects, f"<< /Type /Page {words} >>".encode()))
    shown = " ".join(f"{n} 0 R" for n in groups)
    objects[0] = f"<< /Type /Catalog /Pages 2 0 R /OCProperties << /OCGs [{shown}] >> >>".encode()
    listed = " ".join(f"{n} 0 R" for n in kids)
    objects[1] = f"<< /Type /Pages /Kids [{listed}] /Count {len(kids)} >>".encode()
    return _written(objects)


def _add(objects: list[bytes], body: bytes) -> int:
    objects.append(body)
    return len(objects)


def _stream(text: str, words: str) -> bytes:
    data = zlib.compress(text.encode("latin-1"))
    head = f"<< {words} /Filter /FlateDecode /Length {len(data)} >>\nstream\n"
    return head.encode() + data + b"\nendstream"


def _written(objects: Sequence[bytes]) -> bytes:
    out = bytearray(b"%PDF-1.7\n")
    places = []
    for number, body in enumerate(objects, 1):
        places.append(len(out))
        out += f"{number} 0 obj\n".encode() + body + b"\nendobj\n"
    at = len(out)
    out += f"xref\n0 {len(objects) + 1}\n0000000000 65535 f \n".encode()
    for place in places:
        out += f"{place:010} 00000 n \n".encode()
    out += f"trailer << /Size {len(objects) + 1} /Root 1 0 R >>\nstartxref\n{at}\n%%EOF\n".encode()
    return bytes(out)
