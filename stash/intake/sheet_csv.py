"""Tables with separators: any usual encoding, any usual separator."""

from __future__ import annotations

import codecs
import csv
import io
import re
from collections import Counter

from stash.errors import BadInputError
from stash.intake.sheet import check_size

SEPARATORS = (";", "\t", "|", ",")
"""Where two would do equally well the first is taken: a comma may be a decimal mark."""
_LOOKED_AT = 200
_SAID = re.compile(r"sep=(.)\n")
"""First line by which some programs say their separator."""


def read_csv(file: str, data: bytes) -> list[list[str]]:
    """The rows of a table, every cell as the text that stands there.

    Raises:
        BadInputError: A quote that is never closed, or more columns than anyone keeps.
    """
    text = decoded(data).replace("\r\n", "\n").replace("\r", "\n")
    said = _SAID.match(text)
    separator = said[1] if said else _separator(text)
    if said:
        text = text[said.end() :]
    try:
        sizes = [len(row) for row in csv.reader(io.StringIO(text), delimiter=separator)]
    except csv.Error as error:
        raise _unreadable(file, error) from error
    wide = max(sizes, default=0)
    check_size(file, len(sizes), wide)
    if not wide:
        return []
    rows = _parsed(file, text, separator, wide)
    # Row numbers stay those of the person's file.
    return [[], *rows] if said else rows


def _parsed(file: str, text: str, separator: str, wide: int) -> list[list[str]]:
    # Heavy, and needed for this kind of file only.
    import pandas as pd

    try:
        # pandas takes the number of columns from the first row unless it is told.
        frame = pd.read_csv(
            io.StringIO(text),
            sep=separator,
            header=None,
            names=range(wide),
            index_col=False,
            dtype=str,
            na_filter=False,
            skip_blank_lines=False,
        )
    except (ValueError, pd.errors.ParserError) as error:
        raise _unreadable(file, error) from error
    return [[str(cell) for cell in row] for row in frame.itertuples(index=False)]


def _unreadable(file: str, error: Exception) -> BadInputError:
    return BadInputError(
        f"{file} cannot be read as a table: {str(error).strip()[:120]}.",
        'Look for a quote (") that is opened and not closed, and save it again as CSV.',
    )


def decoded(data: bytes) -> str:
    """Bytes as text: by their mark, else UTF-8, else the Western code page; never fails."""
    if data.startswith((codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE)):
        return data.decode("utf-16", errors="replace")
    head = data[:400]
    if head.count(0) > len(head) // 4:
        odd = head[1::2].count(0) > head[::2].count(0)
        return data.decode("utf-16-le" if odd else "utf-16-be", errors="replace")
    for encoding in ("utf-8-sig", "cp1252"):
        try:
            return data.decode(encoding).replace("\0", "")
        except UnicodeDecodeError:
            continue
    return data.decode("latin-1").replace("\0", "")


def _separator(text: str) -> str:
    """The separator that cuts most rows into the same number of cells, at least two."""
    lines = text.splitlines(keepends=True)[:_LOOKED_AT]
    best, most = ",", 0.0
    for separator in SEPARATORS:
        try:
            rows = [row for row in csv.reader(lines, delimiter=separator) if any(row)]
        except csv.Error:
            continue
        sizes = Counter(len(row) for row in rows if len(row) > 1)
        size, alike = sizes.most_common(1)[0] if sizes else (1, 0)
        # As many rows alike as possible; among equals the one that finds more cells.
        score = alike / len(rows) + size / 1000 if size > 1 else 0.0
        if score > most:
            best, most = separator, score
    return best
