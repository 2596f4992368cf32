"""Plain text in columns, for terminals of any width and for pipes."""

from __future__ import annotations

import textwrap
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Sequence


NARROWEST = 8
"""No column is cut below this many characters."""


def table(
    head: Sequence[str], rows: Sequence[Sequence[str]], width: int = 80, keep: int | None = None
) -> str:
    """Columns as wide as their longest text; the widest one is cut until the line fits.

    A head that begins with `>` is set to the right: figures, which are cut only when nothing
    else can be, since half a figure is a wrong one. Column `keep` is cut last of the others.
    """
    right = [name.startswith(">") for name in head]
    names = [name.removeprefix(">") for name in head]
    wide = [max(len(row[place]) for row in (names, *rows)) for place in range(len(names))]
    spare = width - 2 * (len(names) - 1)
    while sum(wide) > spare:
        words = [0 if flush else size for size, flush in zip(wide, right, strict=True)]
        others = [0 if place == keep else size for place, size in enumerate(words)]
        most = next((some for some in (others, words, wide) if max(some) > NARROWEST), None)
        if most is None:
            break
        wide[most.index(max(most))] -= 1
    lines = [_line(names, wide, right), "  ".join("─" * size for size in wide)]
    lines += [_line(row, wide, right) for row in rows]
    return "\n".join(lines)


def _line(row: Sequence[str], wide: Sequence[int], right: Sequence[bool]) -> str:
    cells = [
        _cut(text, size).rjust(size) if flush else _cut(text, size).ljust(size)
        for text, size, flush in zip(row, wide, right, strict=True)
    ]
    return "  ".join(cells).rstrip()


def _cut(text: str, size: int) -> str:
    return text if len(text) <= size else f"{text[: size - 1]}…"


def wrapped(text: str, width: int = 80, indent: int = 0, hang: int = 0) -> str:
    """A sentence over several lines, `indent` in, all but the first `hang` more."""
    return textwrap.fill(
        text,
        width,
        initial_indent=" " * indent,
        subsequent_indent=" " * (indent + hang),
        break_long_words=False,
        break_on_hyphens=False,
    )


def sides(left: str, right: str, width: int = 80) -> str:
    """Two texts at the two ends of a line; the second on its own line if they do not fit."""
    if len(left) + len(right) + 2 > width:
        return f"{left}\n{right.rjust(width)}".rstrip()
    return f"{left}{right.rjust(width - len(left))}".rstrip()
