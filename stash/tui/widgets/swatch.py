"""A cloth's colour as a real swatch, with its name: colour is never the only signal."""

from __future__ import annotations

from rich.style import Style
from rich.text import Text


def swatch(colour: str, name: str = "", cells: int = 2) -> Text:
    """`cells` cells of the colour (#rrggbb) and then its name."""
    text = Text()
    text.append(" " * cells, style=Style(bgcolor=colour))
    if name:
        text.append(f" {name}")
    return text
