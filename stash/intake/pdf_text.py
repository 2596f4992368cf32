"""Opening a PDF and taking its page descriptions apart, within limits."""

from __future__ import annotations

import io
import logging
import re
from typing import TYPE_CHECKING

from pypdf import PdfReader
from pypdf.errors import PyPdfError

from stash.errors import BadInputError
from stash.intake.file_bytes import file_bytes

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

LARGEST = 40_000_000
"""Bytes of the file; home patterns are a tenth of it."""
MOST_PAGES = 200
LARGEST_CONTENT = 12_000_000
"""Bytes of all page descriptions once unpacked."""
UNREADABLE = (
    *(PyPdfError, ValueError, KeyError, TypeError, AttributeError, IndexError, OSError),
    *(ArithmeticError, AssertionError, RecursionError, NotImplementedError, RuntimeError),
)
"""What pypdf raises on a file that breaks the rules of PDF."""

_TOKEN = re.compile(
    rb"%[^\r\n]*|\((?:\\.|[^\\()]|\([^()]*\))*\)|<<|>>|<[0-9A-Fa-f\s]*>|/[^\s/\[\]()<>{}%]*"
    rb"|[-+]?(?:\d+\.?\d*|\.\d+)|\[|\]|[A-Za-z'\"][A-Za-z0-9*'\"]*",
    re.DOTALL,
)
_PICTURE, _PICTURE_END = re.compile(rb"\bBI\b"), re.compile(rb"\bEI\b")
_NUMBER = re.compile(rb"[-+]?(?:\d+\.?\d*|\.\d+)")
_MOST_OPERANDS = 64

# Its remarks on odd files would otherwise land on the terminal.
logging.getLogger("pypdf").addHandler(logging.NullHandler())

Operand = float | str


def open_pdf(path: Path) -> PdfReader:
    """A PDF document.

    Raises:
        NotFoundError: no such file.
        BadInputError: too large, no PDF, locked, damaged, or of too many pages.
    """
    data = file_bytes(path, LARGEST, "Keep only the pages of the pattern.")
    if b"%PDF-" not in data[:1024]:
        raise BadInputError(f"{path.name} is not a PDF.", "Choose a .pdf file.")
    try:
        reader = PdfReader(io.BytesIO(data))
        locked, pages = reader.is_encrypted, 0 if reader.is_encrypted else len(reader.pages)
    except UNREADABLE as error:
        raise damaged(path.name) from error
    if locked:
        raise BadInputError(f"{path.name} is locked.", "Save it without a password.")
    if not 1 <= pages <= MOST_PAGES:
        raise BadInputError(
            f"{path.name} has {pages} pages.",
            f"Keep the pages of the pattern, at most {MOST_PAGES}.",
        )
    return reader


def damaged(file: str) -> BadInputError:
    """The file cannot be read as a PDF."""
    return BadInputError(f"{file} is damaged or no PDF.", "Open it and save it again.")


def operations(content: bytes) -> Iterator[tuple[str, list[Operand]]]:
    """The operators of a page description, each with its operands; names without their slash.

    Strings, arrays and dictionaries are passed over: no line depends on them.
    """
    operands: list[Operand] = []
    for token in _TOKEN.finditer(_without_pictures(content)):
        text = token[0]
        first = text[:1]
        if _NUMBER.fullmatch(text):
            operands.append(float(text))
        elif first == b"/":
            operands.append(text[1:].decode("latin-1"))
        elif first.isalpha() or first in b"'\"":
            yield text.decode("latin-1"), operands
            operands = []
        if len(operands) > _MOST_OPERANDS:
            operands = operands[-_MOST_OPERANDS:]


def _without_pictures(content: bytes) -> bytes:
    """The description without the bytes of pictures kept in it."""
    kept, at = [], 0
    while (begin := _PICTURE.search(content, at)) is not None:
        kept.append(content[at : begin.start()])
        end = _PICTURE_END.search(content, begin.end())
        at = len(content) if end is None else end.end()
    return b" ".join([*kept, content[at:]])
