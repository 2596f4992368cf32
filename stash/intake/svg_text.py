"""Reading an SVG file's text safely: plain XML only, nothing fetched, nothing expanded."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING
from xml.etree import ElementTree

from stash.errors import BadInputError
from stash.intake.file_bytes import file_bytes

if TYPE_CHECKING:
    from pathlib import Path

LARGEST = 20_000_000
"""Bytes; a pattern with every size is far smaller."""

MOST_TAGS = 400_000

_PLAIN_TYPE = re.compile(r"<!DOCTYPE\s[^\[<>]*>", re.IGNORECASE)
SIZE = re.compile(r"\s*\+?(\d+\.?\d*|\.\d+)\s*(mm|cm|in|pt|pc|px|)\s*", re.IGNORECASE)
_NOT_DRAWN = {"use": "clones", "image": "pictures", "script": "scripts", "foreignObject": "HTML"}


def local_name(element: ElementTree.Element) -> str:
    """The tag without its namespace."""
    return element.tag.rpartition("}")[2]


def because(error: Exception) -> str:
    """What a reading library says of a fault, in brackets; nothing where it says nothing."""
    return f" ({error})" if str(error) else ""


def read_svg_tree(path: Path) -> ElementTree.Element:
    """The root of an SVG file, checked before and after parsing.

    The standard XML parser expands entities, so a document type is refused unread, and so
    is anything that points outside the file.

    Raises:
        NotFoundError: no such file.
        BadInputError: too large, not UTF-8, not SVG, of unknown scale, or not plain shapes.
    """
    root = parse_svg(path)
    _check_scale(path, root)
    for element in root.iter():
        _check_element(path, element)
    return root


def parse_svg(path: Path) -> ElementTree.Element:
    """The root of any SVG file, of whatever scale, holding whatever it holds.

    A document type that only names the standard is passed over; nothing is fetched.

    Raises:
        NotFoundError: no such file.
        BadInputError: too large, not UTF-8, not SVG, or it declares entities.
    """
    text = _PLAIN_TYPE.sub("", _text(path), count=1)
    if re.search(r"<!(?:DOCTYPE|ENTITY)", text, re.IGNORECASE):
        raise BadInputError(
            f"{path.name} carries a document type, which is not read.",
            "Save it as plain SVG, or delete the <!DOCTYPE …> line.",
        )
    if text.count("<") > MOST_TAGS:
        raise BadInputError(
            f"{path.name} holds more elements than any pattern has.", "Keep only the pieces."
        )
    try:
        root = ElementTree.fromstring(text)
    except ElementTree.ParseError as error:
        line = error.position[0]
        raise BadInputError(
            f"{path.name}, line {line}: this is not well-formed SVG.", "Save it again as plain SVG."
        ) from error
    if local_name(root) != "svg":
        raise BadInputError(f"{path.name} is not an SVG drawing.", "Choose an .svg file.")
    return root


def _text(path: Path) -> str:
    try:
        return file_bytes(path, LARGEST, "Keep only the pieces.").decode("utf-8-sig")
    except UnicodeDecodeError as error:
        raise BadInputError(
            f"{path.name} is not UTF-8 text.", "Save it as plain, uncompressed SVG."
        ) from error


def _check_scale(path: Path, root: ElementTree.Element) -> None:
    """A drawing without a real width and height could be any size."""
    for side in ("width", "height"):
        found = SIZE.fullmatch(root.get(side, "").strip()[:60])
        if found is None or float(found[1]) == 0:
            raise BadInputError(
                f"{path.name} does not say how large it is: its {side} is "
                f"'{root.get(side, 'missing')}'.",
                'Give the svg element a real size, such as width="500mm" height="900mm".',
            )


def _check_element(path: Path, element: ElementTree.Element) -> None:
    name = local_name(element)
    if name in _NOT_DRAWN:
        raise BadInputError(
            f"{path.name} holds {_NOT_DRAWN[name]} (<{name}>), which are not read.",
            "Turn them into plain paths, or take them out.",
        )
    for key, value in element.attrib.items():
        if key.rpartition("}")[2] == "href" and not value.startswith("#") and name != "a":
            raise BadInputError(
                f"{path.name} points outside itself ({value[:40]}), which is not followed.",
                "Take the reference out.",
            )
