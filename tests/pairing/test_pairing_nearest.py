"""The cloth that comes nearest to what has to be bought is told by what it really lacks.

Three backs of 120 by 100 cm, along the grain, lie one after the other on cloth of less than
2 m, and two of them side by side on wider: they take 3.60 m there and 2.40 m here. By area
they would take 2.57 m at 140 cm of usable width and 1.73 m at 208 cm.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from pairing_kit import SETTINGS, Book, cloth, cm, make, pattern, plan_for, strip

from stash.pairing.judgement import Judged, Need, Sureness, Verdict
from stash.pairing.nearest import MOST_LAID, nearest_miss

if TYPE_CHECKING:
    from stash.cloth.record import Cloth

BACKS = pattern(pieces=(strip("back", 120, 100, copies=3),))


def why(*shelf: Cloth, book: Book | None = None) -> str:
    return plan_for([make()], [BACKS], shelf, book=book).shortfalls[0].why


def test_what_is_short_is_that_of_a_lay_not_of_the_area() -> None:
    assert why(cloth("oak wool", left=cm(210))) == "Nearest is oak wool: 1.50 m short."


def test_the_cloth_named_is_the_nearest_by_lays() -> None:
    """By area the narrow one lacks 0.47 m and the wide one 0.63 m."""
    narrow = cloth("narrow", id=1, left=cm(210))
    wide = cloth("wide", id=2, width=cm(210), left=cm(110))
    assert why(narrow, wide) == "Nearest is wide: 1.30 m short."


def test_a_cloth_too_narrow_for_a_piece_is_not_told_as_short() -> None:
    """0.5 m of 90 cm: by area it lacks, but no length of it would do."""
    assert why(cloth("ribbon", width=cm(90), left=cm(50))).startswith("Nearest is ribbon, but back")


def test_alike_cloths_share_the_lay_that_tells_them_apart() -> None:
    shelf = [cloth(f"cloth {n}", id=n, left=cm(200 - n)) for n in range(1, 20)]
    book = Book()
    assert why(*shelf, book=book) == "Nearest is cloth 1: 1.61 m short."
    widths = {lay.width for lay in book.lays.values()}
    assert len(book.lays) == len(widths)


def test_a_long_shelf_is_not_laid_out_for_it() -> None:
    """Each is another width: by area the widest lack least, and laid out all lack the same."""
    shelf = [cloth(f"cloth {n}", id=n, width=cm(150 + n), left=cm(200)) for n in range(20)]
    book = Book()
    assert why(*shelf, book=book) == "Among the nearest is cloth 16: 1.60 m short."
    buying = 3  # of the common widths back goes across
    assert len(book.lays) <= MOST_LAID + buying


def test_a_bound_alone_is_told_as_one() -> None:
    bound = Need(length=cm(257), sureness=Sureness.ESTIMATED, why="", low=cm(257), at_least=True)
    one = cloth("oak wool", left=cm(210))
    judged = Judged(
        role=BACKS.pieces[0].role,
        cloth_id=one.id,
        verdict=Verdict.SHORT,
        need=bound,
        have=one.left,
        spare=one.left - cm(257),
        cut_from_shelf=None,
        suit=1.0,
        reasons=(),
    )
    said = nearest_miss([judged], {one.id: one}, {}, SETTINGS.system)
    assert said == "Nearest may be oak wool: at least 0.47 m short."
