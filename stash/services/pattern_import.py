"""Pieces from a file somebody drew: SVG, DXF or PDF, looked at first, then kept at once."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from stash.errors import BadInputError
from stash.intake.drawn_pieces import DIRECTIONS, Asked, read_sheet
from stash.intake.drawn_seam import with_seam
from stash.services.known import known_size
from stash.store import patterns as store
from stash.store.changes import tell
from stash.units.parse_length import parse_length

if TYPE_CHECKING:
    from collections.abc import Collection
    from pathlib import Path

    from stash.garment.pattern import Pattern, Piece
    from stash.intake.drawn import Drawing
    from stash.intake.drawn_pieces import Found, Sheet
    from stash.services.stash import Stash

UNITS_MM = {"mm": 1.0, "cm": 10.0, "in": 25.4}
_MOST_TILES = 40
_ONLY_FOR = {
    "tiles": (".pdf", "rows and columns of pages"),
    "margin": (".pdf", "margin of pages"),
    "overlap": (".pdf", "overlap of pages"),
    "unit": (".dxf", "unit"),
}
"""What may be said of one kind of file only: its ending, and what it is in words."""
WIDEST_SEAM_MM = 100.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Said:
    """What somebody says about a file, as typed; everything may be empty."""

    size: str = ""
    """Only this of the sizes drawn apart."""
    square: str = ""
    """The side of the test square: 5 cm."""
    grain: str = ""
    """`up` or `across` the sheet, where no line shows it."""
    unit: str = ""
    """Unit of a DXF that does not say it."""
    tiles: str = ""
    """Rows and columns of a PDF's pages: 3x4."""
    margin: str = ""
    """What is cut off each page's edges."""
    overlap: str = ""
    """What two neighbouring pages both show."""
    seam: str = ""
    """The allowance to add outside every outline, where the drawing has none."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Look:
    """A file as it would be taken."""

    sheet: Sheet
    picked: frozenset[int]
    """Numbers of the pieces that would be taken."""

    @property
    def taken(self) -> tuple[Found, ...]:
        """What was picked, in the order of the drawing."""
        return tuple(one for one in self.sheet.found if one.number in self.picked)


def look_at(
    file: Path, said: Said | None = None, pick: str = "", *, pattern: Pattern | None = None
) -> Look:
    """What a file holds and what of it would be taken; nothing is kept.

    Args:
        file: An .svg, .dxf or .pdf file.
        said: What is known about it.
        pick: Numbers such as `1,3-5`; empty: everything that is likely a piece.
        pattern: What it is for: its sizes may be names of layers.

    Raises:
        NotFoundError: There is no such file.
        BadInputError: It cannot be read, or something typed is not understood.
    """
    said = said or Said()
    labels = tuple(size.label for size in pattern.sizes) if pattern else ()
    sheet = read_sheet(_drawing(file, said), _asked(said, labels))
    if said.seam.strip():
        seam = parse_length(said.seam).mm
        if not 0 < seam <= WIDEST_SEAM_MM:
            raise BadInputError(f"{said.seam!r} is no seam allowance.", "Say one like 15 mm.")
        sheet = replace(sheet, found=tuple(_with_seam(one, seam) for one in sheet.found))
    if not pick.strip():
        return Look(sheet=sheet, picked=frozenset(f.number for f in sheet.found if f.likely))
    return Look(sheet=sheet, picked=_picked(pick, {f.number for f in sheet.found}))


def _with_seam(found: Found, seam: float) -> Found:
    """The piece with the allowance added; one that says it has its own stays as it is."""
    if found.piece is None or found.piece.seam is not None:
        return found
    return replace(found, piece=with_seam(found.piece, seam))


def take_pieces(stash: Stash, ref: str, look: Look, keep_as: str = "") -> Pattern:
    """Keep what was picked for a pattern; all of it, or nothing.

    Pieces of the same name and size are replaced, others stay.

    Args:
        stash: The stash.
        ref: The pattern.
        look: The file as it was looked at.
        keep_as: The pattern's size they are kept under; empty: the one that was drawn.

    Raises:
        BadInputError: A piece that was picked is wrong, or the pattern has no such size.
    """
    with stash.write(f"import pieces of pattern {ref} from {look.sheet.file}") as session:
        pattern = store.find_pattern(session, ref, hold=True)
        tell(session, f"import pieces of pattern {pattern.name} from {look.sheet.file}")
        pieces = _pieces(look, pattern, keep_as)
        named = {(piece.name.lower(), piece.size) for piece in pieces}
        kept = tuple(p for p in pattern.pieces if (p.name.lower(), p.size) not in named)
        return store.update_pattern(session, replace(pattern, pieces=(*kept, *pieces)))


def _pieces(look: Look, pattern: Pattern, keep_as: str) -> tuple[Piece, ...]:
    wrong = [one for one in look.taken if one.piece is None]
    if wrong:
        told = "; ".join(f"{one.number} ({one.name}): {', '.join(one.wrong)}" for one in wrong[:5])
        good = ",".join(str(one.number) for one in look.taken if one.piece is not None)
        raise BadInputError(
            f"{look.sheet.file}: {told}.",
            f"Mend the drawing, or pick the others: --pick {good}" if good else "Mend the drawing.",
        )
    if not look.taken:
        raise BadInputError(f"{look.sheet.file}: nothing is picked.", "Pick numbers: --pick 1,3-5")
    known_size(pattern, keep_as)
    pieces = tuple(_kept_as(one, keep_as) for one in look.taken)
    for size in dict.fromkeys(piece.size for piece in pieces if piece.size):
        if size not in {known.label for known in pattern.sizes}:
            known = ", ".join(one.label for one in pattern.sizes) or "none"
            raise BadInputError(
                f"{pattern.name} has no size {size!r}; its sizes: {known}.",
                f'Say --size {size} --as SIZE, or add the size: stash pattern edit "{pattern.name}"'
                " --sizes …",
            )
    sizes = {(piece.name.lower(), piece.size) for piece in pieces}
    if len(sizes) < len(pieces):
        raise BadInputError(
            "Pieces of several sizes would be kept under one.", "Choose one size: --size."
        )
    return pieces


def _kept_as(found: Found, size: str) -> Piece:
    assert found.piece is not None
    return replace(found.piece, size=size or found.piece.size)


def _asked(said: Said, sizes: tuple[str, ...]) -> Asked:
    if said.grain and said.grain not in DIRECTIONS:
        raise BadInputError(f"{said.grain!r} is no direction of grain.", "Say up or across.")
    square = parse_length(said.square).mm if said.square else None
    if square is not None and square <= 0:
        raise BadInputError("The test square cannot be nothing.", "Say its side: 5 cm.")
    return Asked(size=said.size, square=square, grain=said.grain, sizes=sizes)


def _drawing(file: Path, said: Said) -> Drawing:
    """The file read by its ending, when all that was said of it is understood and of use."""
    ending = file.suffix.lower()
    unit = _unit(said.unit)
    rows, columns = _tiles(said.tiles)
    margin = parse_length(said.margin).mm if said.margin else None
    overlap = parse_length(said.overlap).mm if said.overlap else 0.0
    _refuse_useless(file, said)
    if ending == ".svg":
        from stash.intake.svg_drawing import read_svg_drawing

        return read_svg_drawing(file)
    if ending == ".dxf":
        from stash.intake.dxf_drawing import read_dxf_drawing

        return read_dxf_drawing(file, unit)
    if ending == ".pdf":
        from stash.intake.pdf_tiles import Tiles, read_pdf_drawing

        tiles = Tiles(rows=rows, columns=columns, margin=margin, overlap=overlap)
        return read_pdf_drawing(file, tiles)
    raise BadInputError(
        f"{file.name} is no drawing that can be read.", "Choose an .svg, .dxf or .pdf file."
    )


def _refuse_useless(file: Path, said: Said) -> None:
    for key, (ending, what) in _ONLY_FOR.items():
        if getattr(said, key).strip() and file.suffix.lower() != ending:
            raise BadInputError(
                f"{file.name} has no {what}: only a {ending} file has.", "Leave it out."
            )


def _unit(text: str) -> float | None:
    if text and text not in UNITS_MM:
        raise BadInputError(f"{text!r} is no unit of a drawing.", "Say mm, cm or in.")
    return UNITS_MM.get(text)


def _tiles(text: str) -> tuple[int | None, int | None]:
    if not text.strip():
        return None, None
    found = re.fullmatch(r"\s*(\d{1,2})\s*[x×]\s*(\d{1,2})\s*", text, re.IGNORECASE)
    rows, columns = (int(found[1]), int(found[2])) if found else (0, 0)
    if not (1 <= rows <= _MOST_TILES and 1 <= columns <= _MOST_TILES):
        raise BadInputError(f"{text!r} is no grid of pages.", "Say rows x columns, like 3x4.")
    return rows, columns


def _picked(text: str, known: Collection[int]) -> frozenset[int]:
    """The numbers of `1,3-5`; BadInputError names what is not there."""
    picked: set[int] = set()
    for part in text.split(","):
        found = re.fullmatch(r"\s*(\d{1,4})\s*(?:[-–]\s*(\d{1,4})\s*)?", part)
        if found is None:
            raise BadInputError(f"{part.strip()!r} picks nothing.", "Say numbers like 1,3-5.")
        first, last = int(found[1]), int(found[2] or found[1])
        wanted = set(range(min(first, last), max(first, last) + 1))
        if missing := sorted(wanted - set(known)):
            raise BadInputError(
                f"There is no piece {missing[0]}.", f"They are numbered 1 to {len(known)}."
            )
        picked |= wanted
    return frozenset(picked)
