"""Notions of a make, its elastic and its thread."""

from __future__ import annotations

import pytest
from pairing_kit import make, pattern, strip

from stash.config import System
from stash.garment.make import Person
from stash.garment.pattern import Kind, Notion, Role
from stash.pairing.notions import notions_of, thread_of
from stash.units.length import Length

METRIC = System.METRIC


@pytest.mark.parametrize("name", ["Waist girth", "waist_girth", "waist"])
def test_elastic_is_cut_to_the_waist(name: str) -> None:
    """Waist 32 in, average elastic 2 in less, 1 in to overlap: cut 31 in (common practice)."""
    worn_by = Person(name="Tove", measures=((name, Length.from_inches(32)),))
    found = notions_of(make(), pattern(Kind.TROUSERS_ELASTIC), METRIC, worn_by)
    elastic = next(notion for notion in found if "elastic" in notion.name)
    assert elastic.length == Length.from_inches(31)


def test_the_patterns_own_list_comes_before_the_usual() -> None:
    own = (
        Notion(name="button", amount=9),
        Notion(name="ribbon", view="B"),
        Notion(name="snap", size="M"),
    )
    found = notions_of(make(view="A"), pattern(notions=own), METRIC)
    assert [notion.name for notion in found] == ["button", "snap", "thread"]


def test_thread_by_stitch_ratio() -> None:
    """Two panels of 1.00 by 0.50 m: 6 m of edges, 3 m of seams.

    Ratios 2.5 for lockstitch 301, 7 for zigzag 304, 14 for overlock 504 (Carr & Latham), a
    fifth more for waste: (3 x 2.5 + 6 x 7) x 1.2 = 59.4 and 3 x 14 x 1.2 = 50.4 m.
    """
    panels = (strip("panel", 100, 50, copies=2),)
    woven = thread_of(make(), pattern(Kind.SHIRT, panels), METRIC)
    knit = thread_of(make(), pattern(Kind.TSHIRT, panels), METRIC)
    assert woven is not None
    assert knit is not None
    assert woven.length.mm == 60_000
    assert knit.length.mm == 51_000


def test_the_fold_is_not_cut() -> None:
    """Half a panel of 100 by 25 on the fold opens to 100 by 50: the same edges."""
    whole = thread_of(make(), pattern(Kind.SHIRT, (strip("panel", 100, 50),)), METRIC)
    half = thread_of(make(), pattern(Kind.SHIRT, (strip("panel", 100, 25, on_fold=True),)), METRIC)
    assert whole == half


@pytest.mark.parametrize("pieces", [(), (strip("collar", 40, 10, role=Role.INTERFACING),)])
def test_no_outlines_no_thread(pieces: tuple[()]) -> None:
    bare = pattern()
    known = type(bare)(id=1, name="Bare", kind=Kind.SHIRT, pieces=pieces)
    assert thread_of(make(), known, METRIC) is None


def test_a_medium_shirt_takes_about_as_much_thread_as_published() -> None:
    """About 130 m for a medium shirt (as quoted of trade figures); within a factor of two."""
    shirt = (
        strip("front", 80, 32, copies=2),
        strip("back", 80, 58, mirrored=False),
        strip("yoke", 15, 48, copies=2),
        strip("sleeve", 60, 45, copies=2),
        strip("collar", 45, 8, copies=2),
        strip("stand", 48, 5, copies=2),
        strip("cuff", 26, 14, copies=2),
    )
    found = thread_of(make(), pattern(Kind.SHIRT, shirt), METRIC)
    assert found is not None
    assert 65_000 <= found.length.mm <= 260_000
