"""What the layers and words of ASTM D6673 mean (ASTM D6673-10, table of layers)."""

from __future__ import annotations

import re

from stash.intake.drawn import Means

LAYERS: dict[str, Means] = {
    "1": Means.OUTLINE,
    "6": Means.FOLD,
    "7": Means.GRAIN,
    # Slits and V notches, then T, castle, check and U notches.
    **dict.fromkeys(("4", "80", "81", "82", "83"), Means.NOTCH),
    # Internal lines, cutouts, drill holes, sew lines, check curves.
    **dict.fromkeys(
        (*("2", "3", "5", "8", "9", "10", "11", "12", "13", "14", "15"),),
        Means.INSIDE,
    ),
    **dict.fromkeys(("84", "85", "86", "87"), Means.INSIDE),
}
_SAYS = re.compile(r"\s*([A-Za-z][A-Za-z /_-]{2,24}?)\s*:\s*(.*?)\s*")

_RULE = re.compile(r"\s*#\s*\d{1,5}\s*")


def said_pairs(texts: list[str]) -> dict[str, str]:
    """Texts like `PIECE NAME: front` by their key in small letters; the first of a key counts."""
    pairs: dict[str, str] = {}
    for text in texts:
        if found := _SAYS.fullmatch(text):
            pairs.setdefault(found[1].lower().replace("_", " "), found[2])
    return pairs


def cut_words(pairs: dict[str, str]) -> str:
    """`cut 2 lining` from a quantity and a material; `1,1` are a left and a right one."""
    counts = [int(n) for n in re.findall(r"\d{1,2}", pairs.get("quantity", ""))]
    material = pairs.get("material", "")
    return f"cut {sum(counts)} {material}".strip() if sum(counts) else ""


def grading_note(texts: list[str], pairs: dict[str, str]) -> str:
    """What to say of a file that grades its pieces by rules; empty where it does not.

    The standard keeps the rules in a table of its own beside the drawing, so that one size is
    drawn only; points that move carry the number of their rule, `# 12` (from memory).
    """
    table, size = pairs.get("grade rule table", ""), pairs.get("sample size", "")
    if not (table or "size list" in pairs or any(map(_RULE.fullmatch, texts))):
        return ""
    named = f" (table {table})" if table else ""
    drawn = f", {size}," if size else ""
    return (
        f"The file grades its pieces by rules{named}: only the size they are drawn in{drawn} is "
        "read. For others, have that size drawn"
    )


def mm_of_units(text: str) -> float | None:
    """Millimetres of one unit by the standard's words METRIC and ENGLISH (from memory)."""
    word = text.strip().lower()
    return {"metric": 1.0, "mm": 1.0, "english": 25.4, "imperial": 25.4, "inch": 25.4}.get(word)
