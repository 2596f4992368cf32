"""Ways to make a garment fit a cloth that is too short for it: what each costs the garment.

House rule throughout: no table of the trade sets these side by side. The scale is ours: 0 costs
the garment nothing, 1 is seen by nobody but its maker, 2 by someone who looks for it, 4 by
everyone, and from 6 it is hardly the garment that was meant. What the moves are, and where each
may be made, is common practice.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from stash.config import System


class WayKind(StrEnum):
    """A kind of move. The words are those to type after `--not`."""

    SEARCH = "search"
    ALTERATION = "alteration"
    LAY = "lay"
    CROSSWISE = "crosswise"
    DONOR = "donor"
    PIECING = "piecing"
    SEAM = "seam"
    MARGIN = "margin"
    CENTRE = "centre"
    LENGTH = "length"
    VIEW = "view"
    SIZE = "size"
    NAP = "nap"


@dataclass(frozen=True, slots=True)
class Price:
    """What a move costs the garment: a figure on our scale, and the words for it."""

    cost: float
    words: str


SEARCH = Price(0, "Nothing but the time it took.")
ALTERATION = Price(0, "Nothing: it is done to this garment anyway.")
LAY = Price(0.5, "More cutting, and every piece turned over by hand for its mirror image.")
CROSSWISE_HIDDEN = Price(0.5, "Nothing that is seen; it gives a little more along its length.")
CROSSWISE_SEEN = Price(
    1, "It gives a little more along its length, and a weave that shows runs the other way there."
)
DONOR = Price(
    1, "Another cloth inside: wash both first, and see whether the colour shows at the edge."
)
PIECING = Price(1, "One more seam where it is not seen, and a little bulk: press it open.")
SEAM = Price(1.5, "Less to let out later, and less room for a slip of the needle.")
MARGIN = Price(
    1.5, "No room for a crooked end or a slip of the shears: square the ends and measure again."
)
CENTRE_HIDDEN = Price(1, "A seam inside, where nobody sees it.")
CENTRE_BACK = Price(2, "A seam down the middle of the back, which can be shaped to the figure.")
CENTRE_OTHER = Price(3, "A seam down the middle that the pattern does not have.")
CENTRE_FRONT = Price(4, "A seam down the middle of the front, which everyone sees.")
ACROSS_PRINT = Price(1, "The print has to meet at that seam.")
"""On top of the seam's own."""
LENGTH_PER_CM = Price(0.75, "It is worn that much shorter, unless the hem was deep enough for it.")
VIEW = Price(4, "It becomes the pattern's other view.")
SIZE = Price(4, "It is closer to the body: the least wearing ease is kept, the look may change.")
NAP = Price(6, "Pieces shade differently where the nap runs the other way, and it stays so.")

OFF_COLOUR_COST, OFF_COLOUR_FULL = 1.0, 40.0
"""What a donor costs on top when it is as far off in colour as this (CIEDE2000) or more; less,
in proportion, when it is nearer. 40 is a plain other colour."""
OFF_WEIGHT_COST = 0.5
"""For each half as heavy again, or each third lighter."""
UNKNOWN_WEIGHT_COST = 0.25
LEAST_SUIT = 0.6
"""A donor whose nature suits its part less than this is not offered: it saves nothing."""
POORLY_SUITED_COST = 2.0
"""For a donor whose nature hardly suits the part, in proportion."""
LOVED_COST = 1.0
"""For cutting into a donor that would be missed fully."""

USUAL_SEAM_MM = 15.0
"""Seam allowance a new seam is given: usual on home patterns (from memory)."""
LEAST_SEAM_MM = {"knit": 6.0}
"""Least seam allowance of a structure: knits are sewn and trimmed in one go (from memory)."""
LEAST_SEAM_OTHERS_MM = 10.0
"""The narrowest that is still pressed open and does not fray away (from memory)."""
LENGTH_STEP_MM = {System.METRIC: 10.0, System.IMPERIAL: 12.7}
"""People shorten by whole centimetres or half inches."""

MOST_SHORTER_MM: dict[str, float] = {
    "elastic trousers": 30,
    "tailored trousers": 20,
    "shorts": 20,
    "leggings": 30,
    "straight skirt": 60,
    "flared skirt": 60,
    "t-shirt": 30,
    "sweatshirt": 30,
    "turtleneck": 30,
    "shirt": 30,
    "blouse": 30,
    "dress": 60,
    "pinafore": 60,
    "jacket": 30,
    "coat": 60,
    "pyjamas": 30,
    "bag": 30,
}
"""By garment kind, the most its length gives up and is still that garment (house rule): skirts
move by a hand's breadth, trousers soon show the ankle, tops soon leave the waistband."""
