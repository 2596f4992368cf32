"""Tables, workbooks and whole folders made to do harm: seeded, so that a run can be repeated."""

# One hostile file a line, however long.
# ruff: noqa: E501
from __future__ import annotations

import io
import os
import shutil
import zipfile
from pathlib import Path
from typing import TYPE_CHECKING

from openpyxl import Workbook

if TYPE_CHECKING:
    from collections.abc import Callable
    from random import Random

    from hostile_drawings import Maker

HEAD = "name,structure,width,left\n"
GOOD_CSV = (HEAD + "blue lawn,woven,140 cm,2 m\n" * 3).encode()
SAMPLE = Path(__file__).parents[2] / "sample_stash"


def _good_xlsx() -> bytes:
    book = Workbook()
    sheet = book.active
    assert sheet is not None
    for line in GOOD_CSV.decode().splitlines():
        sheet.append(line.split(","))
    out = io.BytesIO()
    book.save(out)
    return out.getvalue()


GOOD_XLSX = _good_xlsx()
SHEET = "xl/worksheets/sheet1.xml"


def _zipped(parts: dict[str, bytes]) -> bytes:
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, data in parts.items():
            archive.writestr(name, data)
    return out.getvalue()


def _xlsx(changes: dict[str, bytes | None]) -> bytes:
    """The good workbook with parts exchanged, added or (None) taken out."""
    with zipfile.ZipFile(io.BytesIO(GOOD_XLSX)) as archive:
        parts: dict[str, bytes | None] = {n: archive.read(n) for n in archive.namelist()}
    parts |= changes
    return _zipped({name: data for name, data in parts.items() if data is not None})


def _sheet_xml(rows: str, span: str = "A1:B2") -> bytes:
    space = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
    return (
        f'<worksheet xmlns="{space}"><dimension ref="{span}"/><sheetData>{rows}</sheetData>'
        "</worksheet>"
    ).encode()


def _ods(rows: str, before: str = "") -> bytes:
    spaces = " ".join(
        f'xmlns:{short}="urn:oasis:names:tc:opendocument:xmlns:{name}:1.0"'
        for short, name in (("table", "table"), ("office", "office"), ("text", "text"))
    )
    body = (
        f'<office:spreadsheet><table:table table:name="a">{rows}</table:table></office:spreadsheet>'
    )
    text = f"{before}<office:document-content {spaces}>{body}</office:document-content>"
    return _zipped({"content.xml": text.encode()})


_CELL = "<table:table-cell{0}><text:p>x</text:p></table:table-cell>"
_ROW = "<table:table-row{0}>{1}</table:table-row>"
_BOMB = '<!DOCTYPE x [<!ENTITY a "ha"><!ENTITY b "&a;&a;&a;&a;">]>'

CSVS: tuple[Maker, ...] = (
    ("many columns", lambda r: b"a," * r.choice([300, 2_000_000])),
    ("many rows", lambda r: HEAD.encode() + b"a,woven,1 m,2 m\n" * r.choice([5000, 900_000])),
    ("open quote", lambda r: HEAD.encode() + b'"' + b"x,\n" * 90_000),
    ("quotes", lambda r: HEAD.encode() + b'"' * r.choice([999_999, 1_000_000])),
    ("long cell", lambda r: HEAD.encode() + b"x" * 3_000_000),
    ("zeros", lambda r: b"\0" * r.choice([9, 900_000])),
    ("formulas", lambda r: HEAD.encode() + b"=cmd|' /C calc'!A0,woven,1 m,2 m\n"),
    ("long numbers", lambda r: HEAD.encode() + b"a,woven," + b"9" * 4900 + b" cm,1e999999 m\n"),
    ("odd letters", lambda r: HEAD.encode() + r.randbytes(5000)),
    ("twenty megabytes", lambda r: b"a,b\n" * 6_000_000),
    ("half wide letters", lambda r: GOOD_CSV.decode().encode("utf-16")[: r.randint(3, 90)]),
    ("returns", lambda r: b"\r" * 500_000),
)  # fmt: skip
XLSXS: tuple[Maker, ...] = (
    ("bomb", lambda r: _xlsx({SHEET: _sheet_xml("<row><c><v>1</v></c></row>" * 5_000_000)})),
    ("bomb beside", lambda r: _xlsx({"xl/media/a.bin": b"\0" * 150_000_000})),
    ("path", lambda r: _xlsx({"../../../../tmp/out.txt": b"x", "/tmp/out2.txt": b"x"})),
    ("entities", lambda r: _xlsx({SHEET: _BOMB.encode() + _sheet_xml("&b;")})),
    ("far cell", lambda r: _xlsx({SHEET: _sheet_xml('<row r="1048576"><c r="XFD1048576"><v>1</v></c></row>')})),
    ("wide span", lambda r: _xlsx({SHEET: _sheet_xml("<row/>", "A1:XFD1048576")})),
    ("wrong text number", lambda r: _xlsx({SHEET: _sheet_xml('<row r="1"><c r="A1" t="s"><v>99999999</v></c></row>')})),
    ("part gone", lambda r: _xlsx({r.choice([SHEET, "xl/workbook.xml", "[Content_Types].xml"]): None})),
    ("deep", lambda r: _xlsx({SHEET: _sheet_xml("<row>" * 50_000)})),
    ("outside link", lambda r: _xlsx({"xl/externalLinks/externalLink1.xml": b'<x href="http://127.0.0.1:9/"/>'})),
    ("many parts", lambda r: _xlsx({f"xl/{i}.xml": b"<x/>" for i in range(3000)})),
    ("zip in zip", lambda r: _xlsx({"xl/embeddings/a.xlsx": GOOD_XLSX * 50})),
    ("same name twice", lambda r: GOOD_XLSX + GOOD_XLSX),
)  # fmt: skip
ODSS: tuple[Maker, ...] = (
    ("columns repeated", lambda r: _ods(_ROW.format("", _CELL.format(' table:number-columns-repeated="99999999"')))),
    ("rows repeated", lambda r: _ods(_ROW.format(' table:number-rows-repeated="1048576"', _CELL.format("")))),
    ("entities", lambda r: _ods("&b;", _BOMB)),
    ("deep words", lambda r: _ods(_ROW.format("", "<table:table-cell><text:p>" + "<text:span>" * n + "</text:span>" * n + "</text:p></table:table-cell>")) if (n := r.choice([500, 5000, 90_000])) else b""),
    ("many cells", lambda r: _ods(_ROW.format("", _CELL.format("")) * 150_000)),
    ("bomb", lambda r: _ods("<table:table-row/>" * 7_000_000)),
    ("wrong number", lambda r: _ods(_ROW.format(' table:number-rows-repeated="-9e9"', _CELL.format("")))),
    ("path", lambda r: _zipped({"../content.xml": b"<x/>", "/content.xml": b"<x/>"})),
)  # fmt: skip


def _written(name: str, data: bytes) -> Callable[[Path, Random], None]:
    def change(folder: Path, rng: Random) -> None:
        (folder / name).write_bytes(data)

    return change


def _piped(name: str) -> Callable[[Path, Random], None]:
    def change(folder: Path, rng: Random) -> None:
        (folder / name).unlink(missing_ok=True)
        os.mkfifo(folder / name)

    return change


def _linked(name: str, target: str) -> Callable[[Path, Random], None]:
    def change(folder: Path, rng: Random) -> None:
        (folder / name).unlink(missing_ok=True)
        (folder / name).symlink_to(target)

    return change


def _drawing(name: str) -> Callable[[Path, Random], None]:
    """A pattern that names its drawing somewhere else."""
    return _written(
        "patterns/odd.toml", f'name = "odd"\nkind = "skirt"\ndrawings = ["{name}"]\n'.encode()
    )


def _torn(folder: Path, rng: Random) -> None:
    """Any file of the folder cut short or with bytes changed."""
    path = rng.choice(sorted(p for p in folder.rglob("*") if p.is_file()))
    data = bytearray(path.read_bytes())
    if rng.random() < 0.5:
        del data[rng.randrange(len(data)) :]
    else:
        for _ in range(9):
            data[rng.randrange(len(data))] = rng.randrange(256)
    path.write_bytes(bytes(data))


FOLDERS: tuple[tuple[str, Callable[[Path, Random], None]], ...] = (
    *(("torn", _torn) for _ in range(12)),
    ("pipe for people", _piped("people.toml")),
    ("pipe for a pattern", _piped("patterns/a.toml")),
    ("pipe for settings", _piped("settings.toml")),
    ("endless device", _linked("people.toml", "/dev/zero")),
    ("link out", _linked("patterns/out.svg", "/etc/passwd")),
    ("link to a drawing out", _linked("patterns/tote.svg", "/etc/passwd")),
    ("drawing above", _drawing("../../../../etc/passwd")),
    ("drawing at the root", _drawing("/etc/passwd")),
    ("drawing fetched", _drawing("http://127.0.0.1:9/x.svg")),
    ("drawing behind", _drawing("..\\\\..\\\\x.svg")),
    ("drawing of zeros", _drawing("a\\u0000b.svg")),
    ("deep lists", _written("people.toml", b"x = " + b"[" * 90_000)),
    ("deep tables", _written("people.toml", b"x" + b".x" * 90_000 + b" = 1")),
    ("long number", _written("people.toml", b"x = " + b"9" * 90_000)),
    ("many cloths", _written("cloths.csv", b"name,structure,width,left\n" + b"a,woven,1 m,2 m\n" * 20_000)),
    ("large cloths", _written("cloths.csv", b"name,structure\n" + b"x" * 21_000_000)),
    ("many people", _written("people.toml", b'[[person]]\nname = "a"\n' * 9000)),
    ("newer", _written("stash.toml", b"format = 99")),
    ("odd mark", _written("stash.toml", b"\xff\xfe")),
    ("wrong kind", _written("cloths.csv", b"\x89PNG\r\n\x1a\n")),
)  # fmt: skip


def make_folder(place: Path, change: Callable[[Path, Random], None], rng: Random) -> None:
    """A copy of the sample with something done to it."""
    shutil.copytree(SAMPLE, place)
    change(place, rng)
