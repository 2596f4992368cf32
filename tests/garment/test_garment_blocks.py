"""Blocks: bodies against published size tables, pieces against published drafting rules."""

from __future__ import annotations

import pytest

from stash.garment.blocks.block import BLOCKS, block_of
from stash.garment.blocks.body import CHILDREN, MEN, WOMEN, body_of
from stash.garment.pattern import Kind, Pattern, Piece, Role, Size
from stash.units.length import Length
from stash.units.parse_length import parse_length


def body(**measures: str) -> Size:
    named = {name.replace("_", " "): parse_length(text) for name, text in measures.items()}
    return Size(label="M", body=tuple(named.items()))


@pytest.mark.parametrize(
    ("bust", "waist", "hip"),
    # Steps of women's sizes in EN 13402-3 (from memory).
    [(84, 68, 92), (88, 72, 96), (92, 76, 100), (96, 80, 104), (104, 88, 112), (116, 100, 122)],
)
def test_women_agree_with_the_european_size_standard(bust: int, waist: int, hip: int) -> None:
    found = body_of(body(bust_girth=f"{bust} cm"))
    assert found.waist == pytest.approx(10 * waist, abs=15)
    assert found.hip == pytest.approx(10 * hip, abs=40)


@pytest.mark.parametrize(
    ("stature", "chest", "waist", "seat", "upper_arm"),
    # 16 CFR 1615.1 and 1616.2 (2015): sizes 2, 4, 6 and 10 (girls); statures of those ages
    # from European size tables (from memory).
    [(92, 52.1, 50.8, 53.3, 15.6), (104, 56.0, 53.3, 58.4, 16.8), (116, 61.0, 55.9, 63.5, 18.1),
     (140, 71.1, 62.2, 76.2, 20.6)],
)  # fmt: skip
def test_children_agree_with_the_tables_of_sleepwear(
    stature: int, chest: float, waist: float, seat: float, upper_arm: float
) -> None:
    found = body_of(body(stature=f"{stature} cm"))
    assert found.bust == pytest.approx(10 * chest, abs=20)
    assert found.waist == pytest.approx(10 * waist, abs=20)
    assert found.hip == pytest.approx(10 * seat, abs=20)
    assert found.upper_arm == pytest.approx(10 * upper_arm, abs=20)


def test_what_the_size_table_says_is_kept() -> None:
    found = body_of(body(waist_girth="81 cm", hip_girth="96 cm", body_rise="30 cm"))
    assert (found.waist, found.hip, found.rise) == (810, 960, 300)
    assert body_of(body(chest_girth="100 cm")).shoulder == MEN[1].shoulder
    assert body_of(None) == WOMEN[1]


@pytest.mark.parametrize("kind", [kind for kind in Kind if kind is not Kind.BAG])
def test_every_kind_has_a_block_for_every_body(kind: Kind) -> None:
    for each in (*WOMEN, *MEN, *CHILDREN):
        assert BLOCKS[kind](each)


def test_no_body_tells_how_large_a_bag_is() -> None:
    assert block_of(Pattern(name="tote", kind=Kind.BAG), "", Role.MAIN) == ()


def extent(piece: Piece) -> tuple[float, float]:
    xs, ys = zip(*piece.outline, strict=True)
    return max(xs) - min(xs), max(ys) - min(ys)


def drafted(kind: Kind, role: Role = Role.MAIN) -> dict[str, Piece]:
    one = Pattern(name="any", kind=kind, sizes=(body(bust_girth="92 cm"),))
    return {piece.name: piece for piece in block_of(one, "M", role)}


def test_legs_follow_the_published_drafts() -> None:
    """Hip 100: forks of hip/20 and hip/10 (tailoring drafts, from memory), 2 to 4 in of ease
    (NMSU Guide C-209); seams of 15 mm on both sides."""
    legs = drafted(Kind.TROUSERS_ELASTIC)
    around = sum(extent(legs[name])[1] - 30 for name in ("front", "back"))
    forks = 1000 / 20 + 1000 / 10
    assert 1000 + 50.8 <= 2 * (around - forks) <= 1000 + 101.6 + 30


@pytest.mark.parametrize(
    ("kind", "low", "high"),
    # Ease at the bust by the pattern-catalogue silhouette table (from memory): semi-fitted
    # blouses and dresses, loose shirts, semi-fitted jackets and coats; mm.
    [(Kind.BLOUSE, 104, 125), (Kind.DRESS, 104, 125), (Kind.SHIRT, 130, 205),
     (Kind.JACKET, 111, 145), (Kind.COAT, 174, 205)],
)  # fmt: skip
def test_ease_is_that_of_the_silhouette(kind: Kind, low: float, high: float) -> None:
    back = drafted(kind)["back"]
    seams = 15 if back.on_fold else 30
    at_bust = max(y for x, y in back.outline if x < 450) - seams
    assert low - 10 <= 4 * at_bust - 920 <= high + 40


def test_a_lining_has_its_own_pieces() -> None:
    for kind in (Kind.JACKET, Kind.COAT):
        names = set(drafted(kind, Role.LINING))
        assert names == {"front lining", "back lining", "sleeve"}


def test_the_waist_does_not_change_the_legs_of_another_hip() -> None:
    """Two sizes alike but for the hip differ by a quarter of it in each panel."""
    narrow, wide = (
        block_of(
            Pattern(
                name="any",
                kind=Kind.SKIRT_STRAIGHT,
                sizes=(
                    Size(
                        label="M",
                        body=(
                            ("waist girth", Length.from_mm(700)),
                            ("hip girth", Length.from_mm(hip)),
                        ),
                    ),
                ),
            ),
            "M",
            Role.MAIN,
        )
        for hip in (960, 1000)
    )
    assert extent(wide[0])[1] - extent(narrow[0])[1] == pytest.approx(10, abs=0.5)
