"""Opening a DXF file: text DXF only, small enough, nothing outside it followed."""

from __future__ import annotations

import logging
from typing import TYPE_CHECKING

from ezdxf.filemanagement import readfile
from ezdxf.lldxf.const import DXFError

from stash.errors import BadInputError
from stash.intake.file_bytes import file_bytes

if TYPE_CHECKING:
    from pathlib import Path

    from ezdxf.document import Drawing

LARGEST = 10_000_000
"""Bytes."""
MOST_ENTITIES, MOST_LINES = 40_000, 1_200_000
UNREADABLE = (
    *(DXFError, ValueError, KeyError, TypeError, AttributeError, IndexError),
    *(ArithmeticError, AssertionError, RecursionError, StopIteration, RuntimeError),
)
"""What ezdxf raises on a file that breaks the rules of DXF."""

# Its remarks on odd files would otherwise land on the terminal.
logging.getLogger("ezdxf").addHandler(logging.NullHandler())


def open_dxf(path: Path) -> Drawing:
    """A DXF document.

    Raises:
        NotFoundError: no such file.
        BadInputError: too large, not a text DXF, or damaged.
    """
    data = file_bytes(path, LARGEST, "Keep only the pieces in it.")
    _check(path.name, data)
    try:
        return readfile(path)
    except (*UNREADABLE, OSError) as error:
        raise BadInputError(
            f"{path.name} is damaged or no DXF drawing.", "Save it again as DXF (R12 or R2000)."
        ) from error


def _check(file: str, data: bytes) -> None:
    if b"\0" in data[:4096] or data.startswith(b"AutoCAD Binary"):
        raise BadInputError(f"{file} is not a text DXF.", "Save it as text (ASCII) DXF.")
    lines = data.splitlines()
    if len(lines) > MOST_LINES or sum(c.strip() == b"0" for c in lines[::2]) > MOST_ENTITIES:
        raise BadInputError(
            f"{file} holds more things than any pattern has.", "Keep only the pieces in it."
        )
    if not any(line.strip() == b"SECTION" for line in lines[:200]):
        raise BadInputError(f"{file} is not a DXF drawing.", "Choose a .dxf file.")
