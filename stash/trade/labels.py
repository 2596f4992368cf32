"""What the numbers of a content label mean: moisture counted in, and how far they may be off."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

LABEL_TOLERANCE = 3.0
"""Points of the whole weight a label may be off: 16 CFR 303.43; Regulation (EU) No 1007/2011,
Article 20. A label of 100 % or `all` has none in the US."""

AGREED_ALLOWANCES: dict[str, float] = {
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
    "triacetate": 7.0,
    "viscose": 13.0,
    "acrylic": 2.0,
    "chlorofibre": 2.0,
    "modacrylic": 2.0,
    "polyamide": 6.25,
    "aramid": 8.0,
    "polyimide": 3.5,
    "lyocell": 13.0,
    "polylactide": 1.5,
    "polyester": 1.5,
    "polyethylene": 1.5,
    "polypropylene": 2.0,
    "polyurethane": 3.5,
    "elastodiene": 1.0,
    "elastane": 1.5,
    "elastomultiester": 1.5,
    "elastolefin": 1.5,
    "melamine": 7.0,
}
"""Per cent of dry mass, Regulation (EU) No 1007/2011, Annex IX; wool as carded or unknown,
polyamide and polyurethane as staple."""


def label_allows(label: float, found: float) -> bool:
    """Whether a cloth labelled `label` per cent of a fibre may hold `found` per cent of it."""
    return abs(label - found) <= LABEL_TOLERANCE + 1e-9


def conditioned(
    dry: Iterable[tuple[str, float]], lost: Mapping[str, float] | None = None
) -> tuple[tuple[str, float], ...]:
    """Shares as a label gives them, from shares of dry mass as a laboratory reports them.

    Every dry mass is raised by the fibre's agreed allowance, and by what it lost when it was
    cleaned for the test (per cent of its dry mass). A fibre without an agreed allowance holds
    no moisture. The order stays.
    """
    raised = [
        (name, percent * (1 + (AGREED_ALLOWANCES.get(name, 0.0) + (lost or {}).get(name, 0)) / 100))
        for name, percent in dry
    ]
    total = sum(mass for _, mass in raised)
    return tuple((name, 100 * mass / total) for name, mass in raised)
