"""The bytes of a file somebody names: a plain file, no larger than it may be."""

from __future__ import annotations

from typing import TYPE_CHECKING

from stash.errors import BadInputError, NotFoundError

if TYPE_CHECKING:
    from pathlib import Path


LARGEST_TEXT = 20_000_000
"""Bytes of one file of a stash's folder."""


def file_text(path: Path) -> str:
    """The UTF-8 text of one file of a stash's folder, line ends as they are.

    Raises:
        NotFoundError, BadInputError: as `file_bytes`.
        UnicodeDecodeError: it is not UTF-8.
    """
    return file_bytes(path, LARGEST_TEXT, "Split it up.").decode("utf-8-sig")


def file_bytes(path: Path, largest: int, hint: str) -> bytes:
    """Everything in a file.

    Args:
        path: The file; pipes and devices, which may never end, are refused.
        largest: Bytes it may hold.
        hint: What to do with a larger one.

    Raises:
        NotFoundError: no such file.
        BadInputError: it is no file, may not be read, or is too large.
    """
    try:
        if path.exists() and not path.is_file():
            raise BadInputError(f"{path.name} cannot be read: it is no file.", "Choose a file.")
        with path.open("rb") as file:
            data = file.read(largest + 1)
    except FileNotFoundError as error:
        raise NotFoundError(f"There is no file {path}.", "Check the name.") from error
    except OSError as error:
        raise BadInputError(
            f"{path.name} cannot be read: {error.strerror}.", "Choose a file you may read."
        ) from error
    except ValueError as error:
        raise NotFoundError(f"There is no file {str(path)[:60]!r}.", "Check the name.") from error
    if len(data) > largest:
        raise BadInputError(f"{path.name} is larger than {largest // 1_000_000} MB.", hint)
    return data
