"""How large a print is beside the pieces it is cut into.

No published measure was found; a house rule. Common practice behind it: a large print wants few
seams and large pieces, because every seam breaks it and small pieces show a part of it only.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from stash.garment.pattern import Role
from stash.pairing.judgement import Reason
from stash.units.format_length import Measure, show_length
from stash.units.length import Length

if TYPE_CHECKING:
    from stash.garment.pattern import Pattern, Piece
    from stash.pairing.case import Case

SEEN = (Role.MAIN, Role.CONTRAST)
PLAIN = ("", "plain")
TAKES_MORE = 0.85
"""Mark for any print whose repeat has to meet."""
BROKEN, CUT_OFF = 0.75, 0.75
LARGE = Length.from_mm(200)
"""A repeat one sees across a room."""
MANY_PIECES = 8
"""Cut pieces of the role from which a large print is broken by too many seams."""


def print_scale(case: Case) -> Reason | None:
    """None for plain cloth, and where nobody sees it."""
    cloth = case.cloth
    if case.role not in SEEN or (not cloth.repeat_length and cloth.print.lower() in PLAIN):
        return None
    if not cloth.repeat_length:
        return Reason(
            "print",
            None,
            "How large its print is was not measured. Measure from one motif to the next of its "
            "kind, along and across.",
        )
    repeat = show_length(cloth.repeat_length, case.system, Measure.SMALL)
    mark = TAKES_MORE
    said = [f"Matching its {repeat} repeat takes more than the lay shows; the need counts that."]
    pieces = one_size(case.pattern, case.role)
    if cloth.repeat_length >= LARGE and sum(piece.copies for piece in pieces) > MANY_PIECES:
        mark *= BROKEN
        said.append(f"So large a print is broken by {sum(p.copies for p in pieces)} pieces.")
    if pieces and cloth.repeat_length.mm > max(_width(piece) for piece in pieces):
        mark *= CUT_OFF
        said.append("No piece is as wide as one repeat, so it is nowhere seen whole.")
    return Reason("print", mark, " ".join(said))


def one_size(pattern: Pattern, role: Role) -> tuple[Piece, ...]:
    """The pieces of the role as one size and view has them."""
    found = tuple(piece for piece in pattern.pieces if piece.role is role)
    sizes = [piece.size for piece in found if piece.size]
    views = [view for piece in found for view in piece.views]
    return tuple(
        piece
        for piece in found
        if piece.size in ("", *sizes[:1]) and (not piece.views or views[0] in piece.views)
    )


def _width(piece: Piece) -> float:
    """The smaller extent of the cut piece, mm."""
    xs, ys = [x for x, _ in piece.outline], [y for _, y in piece.outline]
    across = (max(ys) - min(ys)) * (2 if piece.on_fold else 1)
    return min(max(xs) - min(xs), across)
