"""Any table people save is read as text; what could do harm is refused in a sentence."""

from __future__ import annotations

import io
import zipfile
from contextlib import suppress
from datetime import date, datetime
from typing import TYPE_CHECKING, Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from openpyxl import Workbook

from stash.errors import BadInputError, NotFoundError
from stash.intake import sheet_zip
from stash.intake.sheet import MOST_ROWS, read_sheets
from stash.intake.sheet_csv import read_csv
from stash.intake.sheet_ods import read_ods
from stash.intake.sheet_xlsx import read_xlsx

if TYPE_CHECKING:
    from pathlib import Path

ROWS = (("Stoff", "Breite", "Länge"), ("Köper; blau", "1,5 m", '58/60"'), ("x", "", "a\nb"))


def csv_text(separator: str) -> str:
    cells = [['"' + cell.replace('"', '""') + '"' for cell in row] for row in ROWS]
    return "\r\n".join(separator.join(row) for row in cells) + "\r\n"


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "utf-16-le", "cp1252"])
@pytest.mark.parametrize("separator", [",", ";", "\t", "|"])
def test_any_encoding_and_separator(tmp_path: Path, encoding: str, separator: str) -> None:
    path = tmp_path / "stash.csv"
    path.write_bytes(csv_text(separator).encode(encoding))
    (sheet,) = read_sheets(path)
    assert sheet.rows == ROWS


@pytest.mark.parametrize(
    ("text", "rows"),
    [
        ('Name;Width\nBlue;58"\n', [["Name", "Width"], ["Blue", '58"']]),
        ("a,b\n1\n1,2,3\n", [["a", "b", ""], ["1", "", ""], ["1", "2", "3"]]),
        ("sep=|\na|b,c\n", [[], ["a", "b,c"]]),
        ("a,NA\nNULL,nan\n", [["a", "NA"], ["NULL", "nan"]]),
        ("one\ntwo\n", [["one"], ["two"]]),
        ("a;b\rc;d\r", [["a", "b"], ["c", "d"]]),
        ("", []),
    ],
)
def test_every_cell_is_the_text_that_stands_there(text: str, rows: list[list[str]]) -> None:
    assert read_csv("f.csv", text.encode()) == rows


def test_a_quote_that_is_never_closed_is_told() -> None:
    with pytest.raises(BadInputError, match="cannot be read as a table"):
        read_csv("f.csv", b'a,b\n"x,1\n2,3\n')


def workbook(*rows: tuple[Any, ...], shapes: dict[str, str] | None = None) -> bytes:
    book = Workbook()
    sheet = book.active
    assert sheet is not None
    for row in rows:
        sheet.append(row)
    for place, shape in (shapes or {}).items():
        sheet[place].number_format = shape
    data = io.BytesIO()
    book.save(data)
    return data.getvalue()


def test_a_workbook_is_read_as_its_owner_saw_it() -> None:
    data = workbook(
        ("x", 1.5, 58, date(2019, 3, 12), datetime(2019, 3, 12, 10, 30), True, None, 0.1 + 0.2),
        (0.35, 12.5, 12.5, 2.5, "=1+1", "text", 1e-7, 1e15),
        shapes={"A2": "0%", "B2": "[$€-2] #,##0.00", "C2": '"£"0.00', "D2": '0.00" m"'},
    )
    ((_, rows),) = read_xlsx("f.xlsx", data)
    assert rows[0] == ["x", "1.5", "58", "2019-03-12", "2019-03-12 10:30:00", "yes", "", "0.3"]
    assert rows[1][:4] == ["35 %", "12.5 €", "12.5 £", "2.5 m"]
    assert rows[1][4:6] == ["=1+1", "text"], "a formula is data; nothing works it out"
    assert rows[1][6:] == ["0.0000001", "1000000000000000"]


ODS_HEAD = (
    '<office:document-content xmlns:office="urn:oasis:names:tc:opendocument:xmlns:office:1.0" '
    'xmlns:table="urn:oasis:names:tc:opendocument:xmlns:table:1.0" '
    'xmlns:text="urn:oasis:names:tc:opendocument:xmlns:text:1.0"><office:body>'
    '<office:spreadsheet><table:table table:name="Shelf">'
)
ODS_TAIL = "</table:table></office:spreadsheet></office:body></office:document-content>"


def zipped(**parts: str | bytes) -> bytes:
    data = io.BytesIO()
    with zipfile.ZipFile(data, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, text in parts.items():
            archive.writestr(f"{name}.xml", text)
    return data.getvalue()


def test_an_open_document_is_read_too() -> None:
    """Value types as in the Open Document Format 1.3, part 3, section 19.389 (from memory)."""
    rows = (
        "<table:table-row><table:table-cell><text:p>Cord<text:s/>oliv</text:p></table:table-cell>"
        '<table:table-cell office:value-type="float" office:value="1.5"><text:p>1,5</text:p>'
        '</table:table-cell><table:table-cell office:value-type="float" office:value="2.5">'
        '<text:p>2,50 m</text:p></table:table-cell><table:table-cell office:value-type="date" '
        'office:date-value="2019-03-12"><text:p>12.03.19</text:p></table:table-cell>'
        '<table:table-cell office:value-type="percentage" office:value="0.35"/>'
        '<table:table-cell table:number-columns-repeated="1000"/></table:table-row>'
        '<table:table-row table:number-rows-repeated="1048000"><table:table-cell/>'
        "</table:table-row>"
    )
    ((name, found),) = read_ods("f.ods", zipped(content=ODS_HEAD + rows + ODS_TAIL))
    assert name == "Shelf"
    assert found[0][:5] == ["Cord oliv", "1.5", "2,50 m", "2019-03-12", "35.00 %"]
    assert not any(any(row) for row in found[1:])


BOMB = '<!DOCTYPE a [<!ENTITY b "cc"><!ENTITY d "&b;&b;">]>'


@pytest.mark.parametrize("kind", [".xlsx", ".ods"])
@pytest.mark.parametrize(
    ("data", "part"),
    [
        (zipped(content=BOMB + "<a>&d;</a>"), "entities"),
        (zipped(content=("<a/>").encode("utf-16")), "UTF-8"),
        (zipped(other="<a/>"), "damaged"),
        (b"PK\3\4 no zip at all", "damaged"),
        (b"", "damaged"),
    ],
    # a packed file holds the minute it was made; as a name it would differ between workers
    ids=["entities", "other letters", "other parts", "no archive", "empty"],
)
def test_harm_is_refused(tmp_path: Path, kind: str, data: bytes, part: str) -> None:
    path = tmp_path / f"stash{kind}"
    path.write_bytes(data)
    with pytest.raises(BadInputError, match=part):
        read_sheets(path)


def test_what_unpacks_to_too_much_is_refused_unread(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sheet_zip, "MOST_UNPACKED", 1000)
    with pytest.raises(BadInputError, match="unpacks to more"):
        read_ods("f.ods", zipped(content="<a>" + " " * 1000 + "</a>"))


def test_tables_larger_than_any_stash_are_refused(tmp_path: Path) -> None:
    with pytest.raises(BadInputError, match="more than"):
        read_csv("f.csv", b"a,b\n" * (MOST_ROWS + 1))
    with pytest.raises(BadInputError, match="more than"):
        read_csv("f.csv", b"," * 300)
    path = tmp_path / "long.csv"
    path.write_text("a" * 6000, encoding="utf-8")
    with pytest.raises(BadInputError, match="characters"):
        read_sheets(path)


def test_files_that_are_none(tmp_path: Path) -> None:
    with pytest.raises(NotFoundError):
        read_sheets(tmp_path / "none.csv")
    with pytest.raises(BadInputError, match="not a table"):
        read_sheets(tmp_path / "stash.pdf")
    (tmp_path / "folder.csv").mkdir()
    with pytest.raises(BadInputError, match="cannot be read"):
        read_sheets(tmp_path / "folder.csv")


@given(st.binary(max_size=400))
def test_any_bytes_are_a_table_or_refused(data: bytes) -> None:
    for read in (read_csv, read_xlsx, read_ods):
        with suppress(BadInputError):
            read("f", data)


@given(st.text(max_size=300))
def test_any_text_is_a_table_or_refused(text: str) -> None:
    for data in (text.encode("utf-8", "surrogatepass"), text.encode("utf-16", "surrogatepass")):
        with suppress(BadInputError):
            read_csv("f", data)


@given(st.text('<>/="& abtc:-_1', max_size=120))
def test_any_document_is_a_table_or_refused(xml: str) -> None:
    with suppress(BadInputError):
        read_ods("f", zipped(content=ODS_HEAD + xml + ODS_TAIL))
    with suppress(BadInputError):
        read_xlsx("f", zipped(content=xml, workbook=xml))
