"""A pattern from its TOML file and the SVG drawings it names, which lie beside it."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from stash.cloth.record import Structure
from stash.garment.pattern import Asks, ChartRow, Kind, Notion, Pattern, Piece, Role, Size
from stash.intake import words
from stash.intake.svg_pieces import read_svg_pieces
from stash.intake.tables import Table, read_toml
from stash.intake.typed import read_fields
from stash.trade.fibres import find_fibre
from stash.units.length import ZERO
from stash.units.parse_length import parse_length, parse_width
from stash.units.percent import parse_percent, parse_recovery
from stash.units.printed import parse_printed
from stash.units.weight import parse_weight

if TYPE_CHECKING:
    from pathlib import Path

    from stash.intake.problems import Problems

NOTHING = "-"
"""A chart cell the envelope leaves empty."""


def read_pattern(path: Path, problems: Problems) -> Pattern | None:
    """The pattern of one file; None, and the problems noted, when anything is wrong."""
    before = len(problems.found)
    table = read_toml(path, problems)
    if table is None:
        return None
    pattern = Pattern(
        id=table.record_number(),
        name=table.text("name", needed=True),
        kind=table.parsed("kind", _kind, Kind.BAG, needed=True),
        form=table.text("form", "paper"),
        kept_in=table.text("kept_in"),
        picture=table.text("picture"),
        views=table.texts("views"),
        sizes=tuple(_size(entry) for entry in table.inner("size")),
        traced=table.texts("traced"),
        pieces=_pieces(table, path.parent),
        charts=tuple(row for entry in table.inner("chart") for row in _chart(entry)),
        asks=tuple(_asks(entry) for entry in table.inner("asks")),
        notions=tuple(_notion(entry) for entry in table.inner("notion")),
        fullness=table.number("fullness", 1.0),
        child=table.flag("child"),
        tested=table.flag("tested"),
        liked=table.whole("liked", 3, 1, 5),
        notes=table.text("notes"),
    )
    table.finish()
    _check(pattern, table)
    return pattern if len(problems.found) == before else None


def _kind(text: str) -> Kind:
    return words.read_choice(Kind, text)


def _role(text: str) -> Role:
    return words.read_choice(Role, text)


def _size(table: Table) -> Size:
    size = Size(
        label=table.text("label", needed=True),
        body=table.pairs("body", parse_length),
        finished=table.pairs("finished", parse_length),
    )
    table.finish()
    return size


def _pieces(table: Table, folder: Path) -> tuple[Piece, ...]:
    pieces: list[Piece] = []
    for name in table.texts("drawings"):
        if not _is_beside(folder, name):
            table.wrong("drawings", f"'{name}' is not a file beside this one.")
            continue
        drawn = table.read("drawings", name, lambda file: read_svg_pieces(folder / file))
        pieces.extend(drawn or ())
    for entry in table.inner("piece"):
        values = read_fields(entry, Piece)
        entry.finish()
        if all(value is not None for value in values.values()):
            pieces.append(Piece(**values))
    return tuple(pieces)


def _is_beside(folder: Path, name: str) -> bool:
    """A plain file name, which leads nowhere else either: nothing outside is ever read."""
    if not name.isprintable() or any(sign in name for sign in "/\\:") or name in ("", ".", ".."):
        return False
    return (folder / name).resolve().parent == folder.resolve()


def _chart(table: Table) -> list[ChartRow]:
    """One chart: widths across, a row of amounts for every size."""
    role = table.parsed("role", _role, Role.MAIN)
    view = table.text("view")
    with_nap = table.flag("with_nap")
    rounded = table.flag("rounded")
    widths = [table.read("widths", text, parse_width) for text in table.texts("widths")]
    amounts = table.take("amounts", {})
    table.finish()
    if not isinstance(amounts, dict) or not amounts or not widths:
        table.wrong("amounts", "a chart needs its widths, and amounts for each size.")
        return []
    rows: list[ChartRow] = []
    for size, cells in amounts.items():
        if not isinstance(cells, list) or len(cells) != len(widths):
            table.wrong(f"amounts, {size}", f"there should be {len(widths)}, one for each width.")
            continue
        for width, cell in zip(widths, cells, strict=True):
            if cell == NOTHING or width is None:
                continue
            amount = table.read(f"amounts, {size}", str(cell), parse_printed)
            if amount is not None:
                rows.append(
                    ChartRow(
                        role=role,
                        view=view,
                        size=size,
                        width=width,
                        amount=amount,
                        with_nap=with_nap,
                        rounded=rounded,
                    )
                )
    return rows


def _asks(table: Table) -> Asks:
    structures = tuple(
        table.read("structures", text, lambda word: words.read_choice(Structure, word))
        for text in table.texts("structures")
    )
    asks = Asks(
        role=table.parsed("role", _role, Role.MAIN),
        structures=tuple(s for s in structures if s is not None),
        stretch_across=table.parsed("stretch_across", parse_percent, None),
        stretch_along=table.parsed("stretch_along", parse_percent, None),
        recovery=table.parsed("recovery", parse_recovery, None),
        weight_low=table.parsed("weight_low", parse_weight, None),
        weight_high=table.parsed("weight_high", parse_weight, None),
        hand_low=table.parsed("hand_low", words.read_hand, None),
        hand_high=table.parsed("hand_high", words.read_hand, None),
        nap_allowed=table.parsed("nap_allowed", words.read_flag, True),
        fibres=_fibres(table),
        avoid=table.texts("avoid"),
    )
    table.finish()
    for name in asks.reversed_ranges:
        table.problems.doubt(table.where, f"its {name} is asked from more to less.")
    return asks


def _fibres(table: Table) -> tuple[str, ...]:
    read = (table.read("fibres", text, find_fibre) for text in table.texts("fibres"))
    return tuple(fibre for fibre in read if fibre is not None)


def _notion(table: Table) -> Notion:
    notion = Notion(
        name=table.text("name", needed=True),
        view=table.text("view"),
        size=table.text("size"),
        amount=table.whole("amount", 1, 1, 999),
        length=table.parsed("length", parse_length, ZERO),
        note=table.text("note"),
    )
    table.finish()
    return notion


def _check(pattern: Pattern, table: Table) -> None:
    """Sizes and views named anywhere must be the pattern's own; nothing may stand twice."""
    if table.problems.exact:
        return
    sizes = {size.label for size in pattern.sizes}
    if len(sizes) < len(pattern.sizes):
        table.problems.add(table.where, "a size stands there twice.")
    named_sizes = [
        *(("traced", size) for size in pattern.traced),
        *((f"piece '{piece.name}'", piece.size) for piece in pattern.pieces),
        *(("chart", row.size) for row in pattern.charts),
        *((f"notion '{notion.name}'", notion.size) for notion in pattern.notions),
    ]
    named_views = [
        *((f"piece '{piece.name}'", view) for piece in pattern.pieces for view in piece.views),
        *(("chart", row.view) for row in pattern.charts),
        *((f"notion '{notion.name}'", notion.view) for notion in pattern.notions),
    ]
    for kind, named, known in (("size", named_sizes, sizes), ("view", named_views, pattern.views)):
        for what, name in named:
            if name and name not in known:
                error = words.unknown(kind, name, known)
                table.problems.note(f"{table.where}, {what}", error)
    seen: set[Piece] = set()
    for piece in pattern.pieces:
        plain = replace(piece, outline=(), copies=1)
        if plain in seen:
            table.problems.add(
                table.where, f"the piece '{piece.name}' is drawn twice in size '{piece.size}'."
            )
        seen.add(plain)
