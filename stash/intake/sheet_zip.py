"""Opening a workbook safely: it is a zip of XML, and both can be made to explode."""

from __future__ import annotations

import io
import re
import zipfile
import zlib

from stash.errors import BadInputError

MOST_UNPACKED = 100_000_000
"""Bytes of everything inside; a workbook of 20 000 rows stays below."""
MOST_MEMBERS = 2_000
_DECLARATION = re.compile(rb"<!(?:DOCTYPE|ENTITY)", re.IGNORECASE)


def open_workbook(file: str, data: bytes) -> zipfile.ZipFile:
    """A zip whose parts are few, small once unpacked, and XML without entities.

    Raises:
        BadInputError: It is no zip, is damaged or locked, or is one of those.
    """
    try:
        archive = zipfile.ZipFile(io.BytesIO(data))
        members = archive.infolist()
    except (zipfile.BadZipFile, ValueError, OSError, NotImplementedError) as error:
        raise _damaged(file) from error
    if any(member.flag_bits & 1 for member in members):
        raise BadInputError(f"{file} is locked with a password.", "Save it without one.")
    total = sum(member.file_size for member in members)
    if len(members) > MOST_MEMBERS or total > MOST_UNPACKED:
        raise BadInputError(
            f"{file} unpacks to more than any stash needs.", "Keep only the table in it."
        )
    for member in members:
        if member.filename.lower().endswith((".xml", ".rels")):
            _check_xml(file, part(file, archive, member.filename))
    return archive


def part(file: str, archive: zipfile.ZipFile, name: str) -> bytes:
    """One part of a workbook; a zip never yields more than the size it declares."""
    try:
        return archive.read(name)
    except (
        KeyError,
        zipfile.BadZipFile,
        zlib.error,
        EOFError,
        NotImplementedError,
        RuntimeError,
        OSError,
        ValueError,
    ) as error:
        raise _damaged(file) from error


def _check_xml(file: str, xml: bytes) -> None:
    # In any other encoding a declaration could hide from the search below.
    if xml[:2] in (b"\xff\xfe", b"\xfe\xff") or b"\0" in xml[:64]:
        raise BadInputError(f"{file} holds XML that is not UTF-8.", "Save it again.")
    if _DECLARATION.search(xml):
        raise BadInputError(
            f"{file} declares its own XML entities, which are not read.", "Save it again."
        )


def _damaged(file: str) -> BadInputError:
    return BadInputError(f"{file} is damaged or no workbook.", "Open it and save it again.")
