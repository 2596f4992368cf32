"""What the title of a drawn piece says: `front | cut 2 | size M | grain crosswise | rib`."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace

from stash.errors import BadInputError
from stash.garment.pattern import Grain, Role
from stash.lay.validate import WIDEST_TOLERANCE

WORDS = (
    "cut 2, cut 1 on fold, cut 2 alike, grain lengthwise, grain crosswise, grain either, "
    "grain bias, tolerance 3, seam 15, size M, view A, main, contrast, lining, interfacing, rib"
)
"""What may follow the name, for hints."""

MARK = "match"
"""The title of a small shape whose middle is the match point of the piece around it."""

NOTCH = "notch"
"""The title of a small mark whose middle is a notch of the piece at whose edge it lies."""

_TOLERANCE = re.compile(r"tolerance (\d{1,2})(?: ?°| degrees)?")
_SEAM = re.compile(r"seam (\d{1,3}(?:\.\d+)?)(?: ?mm)?")
_CUT = re.compile(r"(?:cut )?(\d{1,2})?\s*(on (?:the )?fold|alike)?")


@dataclass(frozen=True, slots=True)
class Said:
    """What titles say of a piece; a piece's own words come after its groups' words."""

    name: str = ""
    copies: int = 1
    on_fold: bool = False
    mirrored: bool = True
    grain: Grain = Grain.LENGTHWISE
    role: Role = Role.MAIN
    size: str = ""
    views: tuple[str, ...] = ()
    tolerance: int = 0
    seam: float | None = None

    @property
    def is_mark(self) -> bool:
        """It is no piece but marks the match point of one."""
        return self.name.lower() == MARK

    @property
    def is_notch(self) -> bool:
        """It is no piece but marks a notch of one."""
        return self.name.lower() == NOTCH


def read_group_title(title: str, said: Said) -> Said:
    """`said` with a group's words added. A group title that is only a name says nothing."""
    for part in _parts(title):
        said = read_word(part, said) or said
    return said


def read_piece_title(title: str, said: Said) -> Said:
    """`said` with a piece's own title: its name, then words between upright bars.

    Raises:
        BadInputError: no name, or a word that is not understood.
    """
    name, *words = _parts(title) or [""]
    if not name:
        raise BadInputError("A piece has an empty title.", "Write one like: front | cut 2")
    said = replace(said, name=name)
    for part in words:
        read = read_word(part, said)
        if read is None:
            raise BadInputError(
                f"The piece '{name}' says '{part}', which is not understood.", f"Use: {WORDS}."
            )
        said = read
    return said


def _parts(title: str) -> list[str]:
    return [" ".join(part.split()) for part in title.split("|")]


def read_word(part: str, said: Said) -> Said | None:
    """`said` changed by one word, or None when the word is not understood."""
    low = part.lower()
    key, _, rest = part.partition(" ")
    if low in tuple(Role):
        return replace(said, role=Role(low))
    if key.lower() == "grain" and rest.lower() in tuple(Grain):
        return replace(said, grain=Grain(rest.lower()))
    if key.lower() == "size" and rest:
        return replace(said, size=rest)
    if key.lower() in ("view", "views") and rest:
        return replace(said, views=tuple(v.strip() for v in rest.split(",") if v.strip()))
    if (tolerance := _TOLERANCE.fullmatch(low)) and int(tolerance[1]) <= WIDEST_TOLERANCE:
        return replace(said, tolerance=int(tolerance[1]))
    if seam := _SEAM.fullmatch(low):
        return replace(said, seam=float(seam[1]))
    cut = _CUT.fullmatch(low)
    if low and cut and (cut[2] or low.startswith("cut ")):
        return _cut(cut, said)
    return None


def _cut(cut: re.Match[str], said: Said) -> Said | None:
    copies = int(cut[1] or 1)
    if copies < 1:
        return None
    how = cut[2] or ""
    return replace(
        said, copies=copies, on_fold=how.endswith("fold"), mirrored=not how.endswith("alike")
    )
