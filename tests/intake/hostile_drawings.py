"""Drawings made to do harm: seeded, so that a run can be repeated."""

# One hostile file a line, however long.
# ruff: noqa: E501
from __future__ import annotations

import io
import zlib
from typing import TYPE_CHECKING

from drawn_kit import pdf, svg
from ezdxf.filemanagement import new

from stash.garment.pattern import Piece
from stash.report.pieces_dxf import pieces_dxf

if TYPE_CHECKING:
    from collections.abc import Callable
    from random import Random

Maker = tuple[str, "Callable[[Random], bytes]"]
RING = "M0,0 H200 V300 H0 Z"
GOOD_SVG = svg(f'<path id="front" d="{RING}"/><text x="9" y="99">cut 2</text>').encode()
GOOD_PDF = pdf(["10 10 400 500 re S BT /H 9 Tf 99 99 Td (cut 2) Tj ET"] * 2)
GOOD_DXF = pieces_dxf(
    [Piece(name="front", outline=((0.0, 0.0), (200.0, 0.0), (200.0, 300.0)))], "easy"
).encode()


def _entities(depth: int, width: int) -> str:
    """Entities that grow by `width` at every one of `depth` steps."""
    steps = "".join(f'<!ENTITY e{i} "{f"&e{i - 1};" * width}">' for i in range(1, depth))
    return f'<!DOCTYPE svg [<!ENTITY e0 "ha">{steps}]>'


def _clones(depth: int, width: int) -> bytes:
    """Clones of clones: width ** depth shapes in a few lines."""
    groups = "".join(
        f'<g id="c{i}">{f"<use href=#c{i - 1} />".replace("=#", chr(61) + chr(34) + "#").replace(" />", chr(34) + "/>") * width}</g>'
        for i in range(1, depth)
    )
    return svg(f'<path id="c0" d="{RING}"/>{groups}').encode()


def _svg(body: str, size: str | None = None) -> bytes:
    return (svg(body, size) if size else svg(body)).encode()


def _points(rng: Random, count: int, reach: float = 500) -> str:
    return " ".join(
        f"{rng.uniform(0, reach):.2f},{rng.uniform(0, reach):.2f}" for _ in range(count)
    )


SVGS: tuple[Maker, ...] = (
    ("entity bomb", lambda r: (_entities(r.randint(6, 14), 10) + svg("<text>&e5;</text>")).encode()),
    (
        "outside entity",
        lambda r: b'<!DOCTYPE svg [<!ENTITY x SYSTEM "file:///etc/passwd">]>' + _svg("<text>&x;</text>"),
    ),
    (
        "outside type",
        lambda r: b'<!DOCTYPE svg PUBLIC "x" "http://127.0.0.1:9/x.dtd">' + GOOD_SVG,
    ),
    ("clone bomb", lambda r: _clones(r.randint(6, 12), 10)),
    ("clone of itself", lambda r: _svg('<g id="a"><use href="#b"/></g><g id="b"><use href="#a"/></g>')),
    ("deep groups", lambda r: _svg("<g>" * (n := r.choice([250, 5000, 60000])) + "</g>" * n)),
    (
        "deep transforms",
        lambda r: _svg('<g transform="scale(10)">' * 190 + f'<path d="{RING}"/>' + "</g>" * 190),
    ),
    (
        "numbers of no world",
        lambda r: _svg(
            f'<path d="M0,0 H{r.choice(["1e308", "1e999", "-1e308", "nan", "inf"])} V9 Z"/>'
        ),
    ),
    (
        "arcs of no world",
        lambda r: _svg(f'<path d="M0,0 A{r.choice(["1e300", "0", "1e-300"])},9 0 1 1 500,1e9 Z"/>'),
    ),
    ("many paths", lambda r: _svg(f'<path d="{RING}"/>' * r.choice([5000, 100_000, 300_000]))),
    ("many shapes apart", lambda r: _svg("".join(f'<path d="M{i},0 h90 v{90 + i} h-90 z"/>' for i in range(590)))),
    (
        "rings in rings",
        lambda r: _svg("".join(f'<circle cx="500" cy="500" r="{200 + i / 9}"/>' for i in range(590))),
    ),
    ("one long path", lambda r: _svg(f'<path d="M{_points(r, r.choice([50_000, 300_000]))}Z"/>')),
    ("tangle", lambda r: _svg(f'<path d="M{_points(r, r.choice([300, 3000]))}Z"/>')),
    (
        "ends that all meet",
        lambda r: _svg("".join(f'<path d="M0,0 L{_points(r, 3)}"/>' for _ in range(5000))),
    ),
    (
        "ends everywhere",
        lambda r: _svg("".join(f'<path d="M{_points(r, 3)}"/>' for _ in range(8000))),
    ),
    ("many texts", lambda r: _svg(f'<path d="{RING}"/>' + '<text x="9" y="9">cut 2</text>' * 20_000)),
    ("long text", lambda r: _svg(f'<path d="{RING}"/><text x="9" y="9">{"cut " * 400_000}</text>')),
    ("long title", lambda r: _svg(f'<path d="{RING}"><title>{"a 1x " * 200_000}</title></path>')),
    ("long transform", lambda r: _svg(f'<g transform="{"scale(1)" * 200_000}"><path d="{RING}"/></g>')),
    ("bad transform", lambda r: _svg(f'<g transform="{" " * 100_000}x("><path d="{RING}"/></g>')),
    ("no view", lambda r: _svg(f'<path d="{RING}"/>', 'width="0" height="-3" viewBox="0 0 0 0"')),
    ("tiny view", lambda r: _svg(f'<path d="{RING}"/>', 'width="9mm" height="9mm" viewBox="0 0 1e-300 1e-300"')),
    ("picture", lambda r: _svg('<image href="http://127.0.0.1:9/x.png"/><script>x</script>') ),
    ("outside clone", lambda r: _svg('<use href="../../../etc/passwd#x"/><use href="http://127.0.0.1:9/#x"/>')),
    ("wide letters", lambda r: GOOD_SVG.decode().encode("utf-16")),
    ("zeros", lambda r: GOOD_SVG.replace(b"front", b"fr\0nt")),
    ("twenty megabytes", lambda r: _svg(" " * 21_000_000)),
    ("long number", lambda r: _svg(f'<path d="M0,0 H{"9" * 500_000} V9 Z"/>')),
    ("many attributes", lambda r: _svg("<g " + " ".join(f'a{i}="1"' for i in range(200_000)) + "/>")),
)  # fmt: skip


def _dxf_text(body: str) -> bytes:
    return f"0\nSECTION\n2\nENTITIES\n{body}0\nENDSEC\n0\nEOF\n".encode()


def _saved(make: Callable[[object], None]) -> bytes:
    document = new("R2000", units=4)
    make(document)
    out = io.StringIO()
    document.write(out)
    return out.getvalue().encode()


def _blocks(width: int, depth: int) -> bytes:
    def make(document: object) -> None:
        blocks = document.blocks  # type: ignore[attr-defined]
        blocks.new("b0").add_line((0, 0), (9, 9))
        for level in range(1, depth):
            block = blocks.new(f"b{level}")
            for place in range(width):
                block.add_blockref(f"b{level - 1}", (place, 0))
        document.modelspace().add_blockref(f"b{depth - 1}", (0, 0))  # type: ignore[attr-defined]

    return _saved(make)


def _grid() -> bytes:
    def make(document: object) -> None:
        document.blocks.new("b").add_line((0, 0), (9, 9))  # type: ignore[attr-defined]
        many = {"row_count": 32767, "column_count": 32767, "row_spacing": 1, "column_spacing": 1}
        document.modelspace().add_blockref("b", (0, 0), dxfattribs=many)  # type: ignore[attr-defined]

    return _saved(make)


def _outside() -> bytes:
    def make(document: object) -> None:
        document.add_xref_def("../../../etc/passwd", "x")  # type: ignore[attr-defined]
        document.modelspace().add_blockref("x", (0, 0))  # type: ignore[attr-defined]
        image = document.add_image_def("/etc/passwd", (9, 9))  # type: ignore[attr-defined]
        document.modelspace().add_image(image, (0, 0), (9, 9))  # type: ignore[attr-defined]

    return _saved(make)


def _lines(rng: Random, count: int) -> str:
    return "".join(
        f"0\nLINE\n8\n0\n10\n{rng.uniform(0, 900)}\n20\n{rng.uniform(0, 900)}\n11\n0\n21\n0\n"
        for _ in range(count)
    )


def _polyline(count: int, value: str) -> str:
    return f"0\nLWPOLYLINE\n8\n0\n90\n{count}\n70\n1\n" + f"10\n{value}\n20\n{value}\n" * count


DXFS: tuple[Maker, ...] = (
    ("block bomb", lambda r: _blocks(10, r.randint(6, 12))),
    ("deep blocks", lambda r: _blocks(1, r.choice([30, 60, 900]))),
    ("grid of blocks", lambda r: _grid()),
    ("outside", lambda r: _outside()),
    ("many lines", lambda r: _dxf_text(_lines(r, r.choice([3000, 39_000, 150_000])))),
    ("long polyline", lambda r: _dxf_text(_polyline(r.choice([50_000, 400_000]), "1.5"))),
    ("numbers of no world", lambda r: _dxf_text(_polyline(9, r.choice(["1e308", "nan", "inf", "-1e999"])))),
    ("circle of no world", lambda r: _dxf_text("0\nCIRCLE\n8\n1\n10\n0\n20\n0\n40\n1e12\n" * 50)),
    ("arc without end", lambda r: _dxf_text("0\nARC\n8\n0\n10\n0\n20\n0\n40\n9e5\n50\n0\n51\n1e300\n")),
    ("many circles", lambda r: _dxf_text("0\nCIRCLE\n8\n1\n10\n0\n20\n0\n40\n90000\n" * 9000)),
    ("spline", lambda r: _dxf_text("0\nSPLINE\n8\n0\n70\n8\n71\n32000\n72\n9\n73\n9\n" + "40\n0\n" * 9 + "10\n0\n20\n0\n" * 9)),
    ("long text", lambda r: _dxf_text(f"0\nMTEXT\n8\n0\n10\n0\n20\n0\n1\n{'{' * 90_000}\n")),
    ("no pairs", lambda r: b"0\nSECTION\n" * r.choice([9, 90_000])),
    ("wrong codes", lambda r: _dxf_text("LINE\n0\n" * 99)),
    ("binary", lambda r: b"AutoCAD Binary DXF\r\n\x1a\0" + r.randbytes(999)),
    ("eleven megabytes", lambda r: b"999\nx\n" * 2_000_000),
    ("long number", lambda r: _dxf_text(_polyline(4, "9" * 300_000))),
    ("own block", lambda r: GOOD_DXF.replace(b"ENTITIES", b"BLOCKS", 1)),
)  # fmt: skip


def _stream_pdf(data: bytes, words: str) -> bytes:
    """A one-page PDF whose description is these bytes, whatever they are."""
    good = pdf(["q Q"])
    start, end = good.index(b"<<  /Filter"), good.index(b"\nendstream")
    head = f"<< {words} /Length {len(data)} >>\nstream\n".encode()
    return good[:start] + head + data + good[end:]


def _flate(size: int, times: int = 1) -> bytes:
    data = b"0 " * (size // 2)
    for _ in range(times):
        data = zlib.compress(data, 9)
    return _stream_pdf(data, f"/Filter [{'/FlateDecode ' * times}]")


def _forms(width: int, depth: int) -> bytes:
    """Forms that draw forms by name; all share the page's resources."""
    forms = [("/BBox [0 0 9 9]", "0 0 400 400 re S")]
    forms += [("/BBox [0 0 9 9]", f"/F{i} Do " * width) for i in range(depth)]
    text = pdf([f"/F{depth} Do"], forms=forms)
    names = " ".join(f"/F{i} {3 + i} 0 R" for i in range(depth + 1))
    own = f"/BBox [0 0 9 9] /Resources << /XObject << {names} >> >>"
    forms = [(own, body) for _, body in forms]
    del text
    return pdf([f"/F{depth} Do"], forms=forms)


PDFS: tuple[Maker, ...] = (
    ("unpacks to much", lambda r: _flate(r.choice([20_000_000, 200_000_000]))),
    ("unpacks twice", lambda r: _flate(200_000_000, 2)),
    ("form bomb", lambda r: _forms(10, r.randint(5, 8))),
    ("form of itself", lambda r: _forms(2, 3).replace(b"/F2 5 0 R", b"/F2 6 0 R")),
    ("deep states", lambda r: pdf(["q " * r.choice([499, 90_000])])),
    ("many lines", lambda r: pdf([" ".join(f"{r.random() * 500:.2f} 9 m 9 9 l S" for _ in range(n))]) if (n := r.choice([9000, 90_000])) else b""),
    ("many curves", lambda r: pdf(["0 0 m " + "9 9e3 9e3 9 0 0 c " * r.choice([2000, 50_000]) + "S"])),
    ("numbers of no world", lambda r: pdf([f"0 0 m {'9' * r.choice([40, 400])} 9 l 9 9 l h S"])),
    ("page of no world", lambda r: pdf(["0 0 9 9 re S"], size=(float(r.choice(["1e30", "0", "-5"])), 9.0))),
    ("large unit", lambda r: pdf(["0 0 9 9 re S"], page_words="/UserUnit 1e30")),
    ("many pages", lambda r: pdf(["0 0 99 99 re S"] * r.choice([150, 400]))),
    ("pages in a ring", lambda r: GOOD_PDF.replace(b"/Kids [", b"/Kids [2 0 R ")),
    ("count of pages", lambda r: GOOD_PDF.replace(b"/Count 2", b"/Count 99999999")),
    ("table in a ring", lambda r: GOOD_PDF.replace(b"/Root 1", b"/Prev %d /Root 1" % GOOD_PDF.rindex(b"xref\n0"))),
    ("no table", lambda r: GOOD_PDF.replace(b"startxref", b"startxxxx")),
    ("wrong table", lambda r: GOOD_PDF.replace(b"0 65535 f", b"9 99999 n")),
    ("outside stream", lambda r: _stream_pdf(b"", "/F (/etc/passwd) /FFilter /None")),
    ("locked", lambda r: GOOD_PDF.replace(b"/Root 1", b"/Encrypt << /Filter /Standard /V 5 >> /Root 1")),
    ("open action", lambda r: GOOD_PDF.replace(b"/Type /Catalog", b"/Type /Catalog /OpenAction << /S /URI /URI (http://127.0.0.1:9/) >>")),
    ("nested arrays", lambda r: pdf(["[" * 200_000])),
    ("nested dictionary", lambda r: GOOD_PDF.replace(b"/Type /Catalog", b"/X " + b"[" * 5000)),
    ("open string", lambda r: pdf(["(" * r.choice([999, 20_000]) + " Tj 0 0 99 99 re S"])),
    ("open picture", lambda r: pdf(["BI " * 50_000])),
    ("own content", lambda r: GOOD_PDF.replace(b"/Contents 4 0 R", b"/Contents 2 0 R")),
    ("own resources", lambda r: GOOD_PDF.replace(b"/Properties <<  >>", b"/Properties 2 0 R")),
    ("many layers", lambda r: pdf(["/OC /L0 BDC " * 3000 + "0 0 99 99 re S"], layers=("x" * 5000,))),
    ("forty megabytes", lambda r: b"%PDF-1.7\n" + b"x" * 41_000_000),
    ("many objects", lambda r: b"%PDF-1.7\n" + b"1 0 obj\nendobj\n" * 200_000),
)  # fmt: skip
