"""Growing a ring outward by a fixed distance."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pyclipper

from stash.geometry.ring import clean

if TYPE_CHECKING:
    from stash.geometry.ring import IntRing

MITRE = 2.0
"""A corner may reach this many times the distance before it is cut square."""


def grown(ring: IntRing, by: int) -> IntRing:
    """A simple ring around everything closer than `by` to `ring`, in the same units.

    Corners are mitred, so it is never less than asked. Hollows whose mouth closes are filled.
    """
    offset = pyclipper.PyclipperOffset(miter_limit=MITRE)
    offset.AddPath(ring, pyclipper.JT_MITER, pyclipper.ET_CLOSEDPOLYGON)
    # A united, strictly simple ring: the offset alone may touch itself at a point.
    union = pyclipper.Pyclipper()
    union.StrictlySimple = True
    union.AddPaths(offset.Execute(by), pyclipper.PT_SUBJECT, True)
    rings = union.Execute(pyclipper.CT_UNION, pyclipper.PFT_NONZERO, pyclipper.PFT_NONZERO)
    outer = max(rings, key=pyclipper.Area)
    return clean(tuple((int(x), int(y)) for x, y in outer))
