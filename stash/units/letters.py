"""Words compared without regard to case and accents."""

from __future__ import annotations

import unicodedata


def bare_letters(text: str) -> str:
    """`text` folded to lower case, without accents, single spaces between its words."""
    apart = unicodedata.normalize("NFKD", text.casefold())
    return " ".join("".join(c for c in apart if not unicodedata.combining(c)).split())
