"""Where each factor of the suit comes from, for those who want to look it up."""

from __future__ import annotations

HOUSE = "house rule"

SOURCES: dict[str, str] = {
    "purpose": HOUSE,
    "structure": "what the pattern asks, or common practice for its kind",
    "nap": "what the pattern asks",
    "stretch across": "(stretched - marked) / marked, as ASTM D3107 and D2594 define stretch",
    "stretch along": "(stretched - marked) / marked, as ASTM D3107 and D2594 define stretch",
    "recovery": "(stretched - let go) / (stretched - marked), as ASTM D3107 defines recovery",
    "stability": "growth as ASTM D3107 defines it, classes of knits after Armstrong; limits: "
    "house rule",
    "weight": "grams over square metres; ranges by kind: common practice",
    "hand": "bending length by ASTM D1388, drape by Cusick (ISO 9073-9), or five steps by hand; "
    "steps: house rule",
    "bulk": "flexural rigidity by BS 3356; limits: house rule",
    "fibre": "what the pattern recommends; filament fibres slide: common practice",
    "avoid": "what the pattern advises against; mark: house rule",
    "season": "wool and raised cloth hold air, linen does not: common practice; mark: house rule",
    "care": "one care for the whole garment, 16 CFR 423 and ISO 3758; mark: house rule",
    "surface": "common practice; mark: house rule",
    "print": "a large print wants few seams: common practice; mark: house rule",
    "width": "the lay; mark: house rule",
    "length": "the lay or the chart",
}
"""By factor. Marks are joined as Derringer & Suich do, Journal of Quality Technology 12(4),
1980."""
