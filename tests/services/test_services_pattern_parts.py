"""The parts of a pattern: listed, changed, drafted anew, taken out."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from small_stash import LEG

from stash.errors import BadInputError, NotFoundError, RefusedError
from stash.garment.pattern import Role
from stash.services import patterns, solving
from stash.services.pattern_import import look_at, take_pieces
from stash.services.pattern_parts import (
    PartKind,
    edit_part,
    get_part,
    part_texts,
    parts_of,
    remove_parts,
)
from stash.services.sketching import sketch
from stash.services.undoing import undo
from stash.services.width_needs import width_needs
from stash.trade.widths import SHOP_WIDTHS
from stash.units.parse_length import parse_length

if TYPE_CHECKING:
    from pathlib import Path

    from stash.garment.pattern import Pattern
    from stash.services.pattern_parts import Part
    from stash.services.stash import Stash


def _part(stash: Stash, kind: PartKind, title: str) -> tuple[Pattern, Part]:
    pattern = patterns.get_pattern(stash, "easy")
    return pattern, next(
        p for p in parts_of(stash, pattern) if p.kind is kind and p.title.startswith(title)
    )


def test_a_drafted_piece_is_drafted_anew_with_what_was_typed(small: Stash) -> None:
    pattern, front = _part(small, PartKind.PIECE, "front")
    assert part_texts(small, front)["length"] == LEG["length"]
    kept = edit_part(small, "easy", front, {"length": "120 cm", "name": "leg"}, base=pattern)
    longest = max(x for x, _ in kept.pieces[0].outline)
    before = max(x for x, _ in pattern.pieces[0].outline)
    more = parse_length("120 cm").mm - parse_length(LEG["length"]).mm
    assert longest - before == pytest.approx(more, abs=0.01)
    assert (kept.pieces[0].name, kept.pieces[0].family) == ("leg", "trouser front")
    with pytest.raises(RefusedError, match="changed meanwhile"):
        edit_part(small, "easy", front, {"length": "90 cm"}, base=pattern)
    undo(small)
    assert patterns.get_pattern(small, "easy").pieces == pattern.pieces


def test_a_name_with_a_bar_is_refused_where_it_is_typed(small: Stash) -> None:
    """A drawing's title is `name | cut 2`, so that such a name would not come back from a file."""
    pattern, front = _part(small, PartKind.PIECE, "front")
    with pytest.raises(BadInputError, match="an upright bar ends the name"):
        edit_part(small, "easy", front, {"name": "a|b; [bold]c"}, base=pattern)


def test_a_match_point_beside_its_piece_is_refused_where_it_is_typed(small: Stash) -> None:
    pattern, front = _part(small, PartKind.PIECE, "front")
    with pytest.raises(BadInputError, match=r"front: the match point 3 m along and 3 m across"):
        edit_part(small, "easy", front, {"match": "3m, 3m"}, base=pattern)
    kept = edit_part(small, "easy", front, {"match": "20 cm, 12.5 cm"}, base=pattern)
    assert kept.pieces[0].match == (200.0, 125.0)
    strap = {"name": "strap", "length": "60 cm", "width": "4 cm", "on_fold": "yes"}
    told = "outside the half that is drawn, which is 6. cm along and . cm across"
    with pytest.raises(BadInputError, match=told):
        patterns.add_piece(small, "easy", "rectangle", {**strap, "match": "5 cm, 20 cm"})


def test_a_drawn_piece_keeps_its_match_point_on_it(small: Stash, tmp_path: Path) -> None:
    drawing = tmp_path / "yoke.svg"
    drawing.write_text(
        '<svg xmlns="http://www.w3.org/2000/svg" width="400mm" height="200mm"'
        ' viewBox="0 0 400 200"><path d="M0,0 L300,0 0,120 Z"><title>yoke | cut 1</title></path>'
        "</svg>"
    )
    take_pieces(small, "easy", look_at(drawing))
    pattern, yoke = _part(small, PartKind.PIECE, "yoke")
    assert yoke.words == "cut 1, 30 cm x 12 cm, drawn"
    # Within its bounds, but beyond its slope.
    with pytest.raises(BadInputError, match="outside the piece, which is 30 cm along and 12 cm"):
        edit_part(small, "easy", yoke, {"match": "29 cm, 11 cm"}, base=pattern)
    kept = edit_part(small, "easy", yoke, {"match": "0, 12 cm"}, base=pattern)
    assert kept.pieces[-1].match == (0.0, 120.0)


def test_sizes_asks_and_rows_are_changed_and_taken_out(small: Stash) -> None:
    patterns.add_size(small, "easy", {"label": "42", "body": "hip girth = 41 in"})
    patterns.add_size(small, "easy", {"label": "42", "finished": "hip girth = 112 cm"})
    pattern, size = _part(small, PartKind.SIZE, "42")
    assert size.words == "body: hip girth = 104 cm; finished: hip girth = 112 cm"
    patterns.add_chart_row(small, "easy", {"size": "42", "width": '45"', "amount": "2 yd (1.8 m)"})
    with pytest.raises(BadInputError, match="still has pieces, amounts"):
        remove_parts(small, "easy", str(size.number))
    pattern, row = _part(small, PartKind.CHART, "42")
    kept = edit_part(small, "easy", row, {"role": "lining", "amount": "1.8 m"}, base=pattern)
    assert [(c.role, c.amount.mm) for c in kept.charts] == [(Role.LINING, 1800)]
    pattern, asks = _part(small, PartKind.ASKS, "main")
    assert not asks.own
    assert asks.words.startswith("usual for elastic trousers: woven or knit")
    with pytest.raises(BadInputError, match="usual for its kind"):
        remove_parts(small, "easy", str(asks.number))
    edit_part(small, "easy", asks, {"structures": "woven"}, base=pattern)
    pattern, asks = _part(small, PartKind.ASKS, "main")
    assert asks.own
    kept, _ = remove_parts(small, "easy", str(asks.number))
    assert kept.asks == ()


def test_a_size_a_make_is_sewn_in_stays(small: Stash) -> None:
    pattern, size = _part(small, PartKind.SIZE, "42")
    with pytest.raises(RefusedError, match="rain trousers"):
        remove_parts(small, "easy", str(size.number))
    with pytest.raises(RefusedError, match="rain trousers"):
        edit_part(small, "easy", size, {"label": "41"}, base=pattern)
    with pytest.raises(RefusedError, match="rain trousers"):
        patterns.edit_pattern(small, "easy", {"sizes": "40"})
    assert patterns.edit_pattern(small, "easy", {"sizes": "42, 44"}).sizes[0].label == "42"
    with pytest.raises(NotFoundError, match="no part number 99"):
        get_part(small, "easy", 99)


def test_a_piece_is_sketched_while_it_is_typed(small: Stash) -> None:
    pattern = patterns.get_pattern(small, "easy")
    some = {"waist": "80 cm", "hip": "70 cm", "length": "60 cm"}
    assert sketch(small, pattern, "skirt panel", some).says == ("Still to be typed: sweep.",)
    drawn = sketch(small, pattern, "skirt panel", some | {"sweep": "90 cm"})
    assert drawn.piece is not None
    assert drawn.says == ("The waist is wider than the hip: is that right?",)
    wrong = sketch(small, pattern, "skirt panel", some | {"sweep": "90"})
    assert wrong.piece is None
    assert "no unit" in wrong.says[0]


def test_needs_over_all_widths_never_rise_with_width_nor_fall_with_nap(
    small: Stash, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(solving, "FEW", 99)  # no processes: these pieces are laid at once
    patterns.add_pattern(small, {"name": "flags", "kind": "shorts", "sizes": "40"})
    for name, length, wide in (("front", "50 cm", "30 cm"), ("back", "50 cm", "36 cm")):
        texts = {"name": name, "length": length, "top": "20 cm", "bottom": wide, "copies": "2"}
        patterns.add_piece(small, "flags", "trapezoid", texts)
    patterns.add_chart_row(small, "flags", {"size": "40", "width": "150 cm", "amount": "1.6 m"})
    found = width_needs(small, "flags", size="40")
    assert [row.width for row in found.rows] == list(SHOP_WIDTHS[small.settings.system])
    lengths = [row.napped.length for row in found.rows if row.napped.length is not None]
    assert len(lengths) == len(found.rows)
    assert lengths == sorted(lengths, reverse=True)
    for row in found.rows:
        assert row.plain.length is not None
        assert row.napped.length is not None
        assert row.plain.length <= row.napped.length
    charted = {row.width.mm: row.charted for row in found.rows}
    assert charted[1500] == parse_length("1.6 m")
    assert charted[1150] is None  # legs are never scaled by area
    with pytest.raises(BadInputError, match="neither pieces nor a chart"):
        width_needs(small, patterns.add_pattern(small, {"name": "x", "kind": "bag"}).name)
