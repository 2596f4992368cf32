"""Which pieces a size is cut from: its own before those of every size, and all or none."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from stash.garment.pattern import ChartRow, Kind, Pattern, Piece, Role
from stash.garment.size_pieces import lacking_words
from stash.units.length import Length

SQUARE = ((0.0, 0.0), (50.0, 0.0), (50.0, 50.0), (0.0, 50.0))
SIZES, VIEWS = ("", "40", "42"), ("short", "long")


def piece(name: str, size: str = "", role: Role = Role.MAIN, views: tuple[str, ...] = ()) -> Piece:
    return Piece(name=name, outline=SQUARE, size=size, role=role, views=views)


def pattern(*pieces: Piece, charts: tuple[ChartRow, ...] = ()) -> Pattern:
    return Pattern(name="Quay", kind=Kind.SKIRT_FLARED, views=VIEWS, pieces=pieces, charts=charts)


def test_a_size_without_its_front_is_not_cut_from_the_rest() -> None:
    found = pattern(piece("band"), piece("front", "40"))
    assert [p.name for p in found.pieces_for("", "40")] == ["band", "front"]
    assert found.pieces_for("", "42") == ()
    assert found.pieces_for("", "") == ()
    assert [p.name for p in found.drawn_for("", "42")] == ["band"]
    assert lacking_words(found, "", "42") == "front in size 42, only in size 40"
    assert found.roles("", "42") == (Role.MAIN,)
    assert not found.can_cut("", "42", Role.MAIN)


def test_a_chart_stands_for_what_a_size_lacks() -> None:
    row = ChartRow(size="42", width=Length.from_mm(1400), amount=Length.from_mm(1500))
    found = pattern(piece("band"), piece("front", "40"), charts=(row,))
    assert found.can_cut("", "42", Role.MAIN)
    assert not found.pieces_for("", "42", Role.MAIN)


def test_each_role_and_each_view_lacks_its_own_pieces_only() -> None:
    found = pattern(
        piece("front", "40"),
        piece("front", "42"),
        piece("front", "40", Role.LINING),
        piece("flounce", "40", views=("long",)),
    )
    assert len(found.pieces_for("short", "42", Role.MAIN)) == 1
    assert found.pieces_for("long", "42", Role.MAIN) == ()
    assert found.pieces_for("short", "42", Role.LINING) == ()
    assert found.roles("short", "42") == (Role.MAIN, Role.LINING)


def test_a_piece_that_bears_its_size_in_its_name_is_one_piece() -> None:
    found = pattern(piece("Front 40", "40"), piece("front 42", "42"), piece("back", "40"))
    assert [p.name for p in found.lacking("", "42")] == ["back"]
    left_and_right = pattern(
        *(piece(f"sleeve {side}", size) for side in "LR" for size in ("L", "M"))
    )
    assert not left_and_right.lacking("", "L")
    assert not left_and_right.lacking("", "M")


def test_the_piece_of_a_size_takes_the_place_of_that_of_every_size() -> None:
    every, own = piece("Front"), piece("front", "42")
    found = pattern(every, own)
    assert found.pieces_for("", "42") == (own,)
    assert found.pieces_for("", "40") == (every,)

    lining = piece("front", role=Role.LINING)
    assert pattern(lining, own).pieces_for("", "42") == (lining, own)
    short = piece("front", "42", views=("short",))
    assert pattern(every, short).pieces_for("short", "42") == (short,)
    assert pattern(every, short).pieces_for("long", "42") == (every,)


pieces = st.builds(
    piece,
    st.sampled_from(("front", "FRONT", "back", "band")),
    st.sampled_from(SIZES),
    st.sampled_from((Role.MAIN, Role.LINING)),
    st.sampled_from(((), ("short",), ("long",), VIEWS)),
)


@given(st.lists(pieces, max_size=8), st.sampled_from(("", *VIEWS)), st.sampled_from(SIZES))
def test_a_size_is_cut_from_all_its_pieces_or_from_none(
    drawn: list[Piece], view: str, size: str
) -> None:
    found = pattern(*drawn)
    here = [p for p in drawn if not p.views or view in p.views]
    names = {(p.name.lower(), p.role) for p in here}
    cut = found.pieces_for(view, size)
    assert set(cut) <= set(here)
    assert cut == () or {(p.name.lower(), p.role) for p in cut} == names
    both = [(p.name.lower(), p.role) for p in cut if not p.size]
    assert size == "" or not set(both) & {(p.name.lower(), p.role) for p in cut if p.size}
    for role in found.roles(view, size):
        assert found.pieces_for(view, size, role) or found.lacking(view, size, role)
