"""Ways to make it fit leave the notches of a piece on its edge."""

from __future__ import annotations

from dataclasses import replace

from pairing_kit import strip
from shapely.geometry import Point, Polygon

from stash.pairing.ways.cut import pieced, shorter, with_centre_seam, with_less_seam


def test_notches_keep_to_the_edge_however_a_piece_is_cut() -> None:
    """A notch stays on the cutting line, as far from the end it is nearer to (common practice)."""
    ring = ((0.0, 0.0), (600.0, 0.0), (580.0, 300.0), (20.0, 400.0))
    marks = ((100.0, 0.0), (10.0, 200.0), (590.0, 150.0))
    plain = strip("back", 60, 40, outline=ring, notches=marks, seam=15.0)
    half = replace(plain, on_fold=True, notches=((10.0, 200.0), (600.0, 0.0)))
    pieces = {
        "seamed": with_centre_seam(half, 15),
        "pieced": pieced(plain, 15),
        "shorter": shorter(plain, 40),
        "trimmed": with_less_seam(plain, 10),
        "half": with_less_seam(half, 10),
    }
    assert [len(p.notches) for p in pieces["pieced"] or ()] == [2, 1]
    for way, found in pieces.items():
        assert found, way
        for piece in found:
            edge = Polygon(piece.outline).exterior
            assert all(edge.distance(Point(notch)) < 0.01 for notch in piece.notches), way
    (short,), (seamed,) = pieces["shorter"] or (), pieces["seamed"] or ()
    assert short.notches == ((100.0, 0.0), (10.0, 200.0), (550.0, 150.0))
    assert seamed.notches == ((10.0, 215.0), (600.0, 15.0))
