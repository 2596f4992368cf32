"""Fibre content by the rules of labels: conditioned shares and tolerances.

Such rules bind commercial supply, not sewing for oneself; they say how far a label may be
from the cloth.
"""

from __future__ import annotations

ALLOWANCES: dict[str, float] = {
    "wool": 17.0,
    "silk": 11.0,
    "cotton": 8.5,
    "kapok": 10.9,
    "linen": 12.0,
    "hemp": 12.0,
    "jute": 17.0,
    "abaca": 14.0,
    "coir": 13.0,
    "ramie": 8.5,
    "sisal": 14.0,
    "acetate": 9.0,
    "cupro": 13.0,
    "modal": 13.0,
    "protein": 17.0,
    "triacetate": 7.0,
    "viscose": 13.0,
    "acrylic": 2.0,
    "chlorofibre": 2.0,
    "modacrylic": 2.0,
    "polyamide": 5.75,
    "aramid": 8.0,
    "polyimide": 3.5,
    "lyocell": 13.0,
    "polylactide": 1.5,
    "polyester": 1.5,
    "polyethylene": 1.5,
    "polypropylene": 2.0,
    "polyurethane": 3.0,
    "elastodiene": 1.0,
    "elastane": 1.5,
    "elastomultiester": 1.5,
    "elastolefin": 1.5,
    "melamine": 7.0,
    "metal": 2.0,
    "paper": 13.75,
}
"""Agreed allowances for moisture, per cent of dry mass: Regulation (EU) No 1007/2011, Annex IX
(wool carded or unknown, polyamide and polyurethane as filament, ramie bleached)."""

US_TOLERANCE = 3.0
"""Percentage points a share may be from its label: 16 CFR 303.43."""
US_NAMED_FROM = 5.0
"""Per cent from which a fibre must be named; below it is "other fiber" unless it serves a
clear purpose, as elastane does: 16 CFR 303.3."""


def conditioned_shares(
    dry: dict[str, float], lost_before: dict[str, float] | None = None
) -> dict[str, float]:
    """Per cent by mass with each fibre's agreed moisture, from dry masses.

    Args:
        dry: Dry mass by generic fibre name, in any one unit.
        lost_before: Per cent of a fibre lost by the laboratory's own preparation.

    Raises:
        KeyError: a fibre without an agreed allowance.
    """
    lost = lost_before or {}
    masses = {
        fibre: mass * (1 + (ALLOWANCES[fibre] + lost.get(fibre, 0.0)) / 100)
        for fibre, mass in dry.items()
    }
    total = sum(masses.values())
    return {fibre: 100 * mass / total for fibre, mass in masses.items()}


def within_us_tolerance(labelled: float, found: float) -> bool:
    """A found share agrees with its label; not for claims of 100 %."""
    return round(abs(labelled - found), 9) <= US_TOLERANCE


def us_label_name(fibre: str, percent: float, *, serves_a_purpose: bool = False) -> str:
    """The name a US label gives a share."""
    return fibre if percent >= US_NAMED_FROM or serves_a_purpose else "other fiber"
