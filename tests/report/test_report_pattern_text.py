"""A pattern in words: its size tables, what it asks, its widest piece."""

from __future__ import annotations

from stash.config import System
from stash.garment.pattern import Asks, Grain, Kind, Notion, Pattern, Piece, Size
from stash.report.pattern_text import pattern_text
from stash.units.length import Length

SQUARE = ((0.0, 0.0), (300.0, 0.0), (300.0, 200.0), (0.0, 200.0))


def test_everything_a_pattern_knows_is_shown() -> None:
    pattern = Pattern(
        name="Any",
        kind=Kind.SHIRT,
        sizes=(
            Size(label="M", body=(("bust_girth", Length.from_mm(920)),)),
            Size(label="L", finished=(("bust girth", Length.from_mm(1160)),)),
        ),
        pieces=(
            Piece(name="front", outline=SQUARE, on_fold=True),
            Piece(name="cuff", outline=((0.0, 0.0), (9.0, 0.0), (9.0, 990.0)), grain=Grain.EITHER),
        ),
        asks=(Asks(fibres=("linen",), avoid=("velvet",), nap_allowed=False),),
        notions=(Notion(name="zip", size="M", length=Length.from_mm(200)),),
    )
    lines = pattern_text(pattern, System.METRIC).splitlines()
    assert "M          92 cm" in lines
    assert any(line.startswith("L") and line.endswith("116 cm") for line in lines)
    # Opened out the half is 40 cm; the cuff may be turned, so it binds no width.
    assert "Widest piece: front, 40 cm across the grain" in lines
    assert "main  no nap, of linen, not velvet" in lines
    assert any(line.split() == ["zip", "M", "1", "20", "cm"] for line in lines)
    bare = pattern_text(Pattern(name="Any", kind=Kind.SHIRT), System.METRIC)
    assert "usually woven, 70 g/m² to 190 g/m²" in bare
