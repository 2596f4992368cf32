"""Lengths, exact: whole nanometres, so that 1/64 inch and 1/8 yard add up without loss."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

NM_PER_MM = 1_000_000
NM_PER_INCH = 25_400_000
NM_PER_YARD = 36 * NM_PER_INCH


@dataclass(frozen=True, order=True, slots=True)
class Length:
    """A signed length in whole nanometres (1 in = 25.4 mm exactly, so 1/64 in = 396 875 nm)."""

    nm: int

    @classmethod
    def from_mm(cls, mm: Fraction | float) -> Length:
        """The nearest length to `mm` millimetres."""
        return cls(round(Fraction(mm) * NM_PER_MM))

    @classmethod
    def from_inches(cls, inches: Fraction | float) -> Length:
        """The nearest length to `inches`."""
        return cls(round(Fraction(inches) * NM_PER_INCH))

    @property
    def mm(self) -> float:
        """Millimetres, for geometry and for output."""
        return self.nm / NM_PER_MM

    @property
    def inches(self) -> Fraction:
        """Inches, exact."""
        return Fraction(self.nm, NM_PER_INCH)

    def ceil_to(self, step: Length) -> Length:
        """The smallest whole number of `step` (> 0) that is not less than this length."""
        return Length(-(-self.nm // step.nm) * step.nm)

    def __add__(self, other: Length) -> Length:
        return Length(self.nm + other.nm)

    def __sub__(self, other: Length) -> Length:
        return Length(self.nm - other.nm)

    def __neg__(self) -> Length:
        return Length(-self.nm)

    def times(self, factor: Fraction | int) -> Length:
        """This length times an exact factor, rounded to the nearest nanometre."""
        return Length(round(self.nm * Fraction(factor)))

    def __bool__(self) -> bool:
        return self.nm != 0


ZERO = Length(0)
