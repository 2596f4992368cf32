"""Maps of the plane that keep straight lines straight: turning, stretching, shifting. Unit-free."""

from __future__ import annotations

import math
from dataclasses import dataclass

Point = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Affine:
    """x' = a x + c y + e, y' = b x + d y + f, in the order SVG and PDF write it."""

    a: float = 1.0
    b: float = 0.0
    c: float = 0.0
    d: float = 1.0
    e: float = 0.0
    f: float = 0.0

    def __call__(self, point: Point) -> Point:
        """Where a point goes."""
        x, y = point
        return self.a * x + self.c * y + self.e, self.b * x + self.d * y + self.f

    def after(self, first: Affine) -> Affine:
        """`first`, and then this one."""
        return Affine(
            self.a * first.a + self.c * first.b,
            self.b * first.a + self.d * first.b,
            self.a * first.c + self.c * first.d,
            self.b * first.c + self.d * first.d,
            self.a * first.e + self.c * first.f + self.e,
            self.b * first.e + self.d * first.f + self.f,
        )


def shifted(x: float, y: float) -> Affine:
    """A shift."""
    return Affine(e=x, f=y)


def scaled(x: float, y: float) -> Affine:
    """A stretch along each axis."""
    return Affine(a=x, d=y)


def turned(degrees: float) -> Affine:
    """A turn about the origin, from x towards y."""
    cos, sin = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
    return Affine(cos, sin, -sin, cos)
