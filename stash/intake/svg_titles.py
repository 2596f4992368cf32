"""What the title of a drawn piece says: `front | cut 2 | size M | grain crosswise | rib`."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace

from stash.errors import BadInputError
from stash.garment.pattern import Grain, Role
from stash.lay.validate import WIDEST_TOLERANCE

WORDS = (
    "cut 2, cut 1 on fold, not on fold, cut 2 alike, grain lengthwise, grain crosswise, "
    "grain either, grain bias, tolerance 3, seam 15, size M, view A, main, contrast, lining, "
    "interfacing, rib"
)
"""What may follow the name, for hints."""

MARK = "match"
"""The title of a small shape whose middle is the match point of the piece around it."""

NOTCH = "notch"
"""The title of a small mark whose middle is a notch of the piece at whose edge it lies."""

_TOLERANCE = re.compile(r"tolerance (\d{1,2})(?: ?°| degrees)?")
_SEAM = re.compile(r"seam (\d{1,3}(?:\.\d+)?)(?: ?mm)?")
_CUT = re.compile(r"(?:cut )?(\d{1,2})?\s*((?:not )?on (?:the )?fold|no fold|alike)?")


@dataclass(frozen=True, slots=True)
class Cut:
    """What one word says of how a piece is cut; what it leaves out it does not change."""

    copies: int | None = None
    on_fold: bool | None = None
    alike: bool = False


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
        BadInputError: no name, a word that is not understood, or two that contradict each other.
    """
    name, *words = _parts(title) or [""]
    if not name:
        raise BadInputError("A piece has an empty title.", "Write one like: front | cut 2")
    _refuse_contradictions(name, words)
    said = replace(said, name=name)
    for part in words:
        read = read_word(part, said)
        if read is None:
            raise BadInputError(
                f"The piece '{name}' says '{part}', which is not understood.", f"Use: {WORDS}."
            )
        said = read
    return said


def _refuse_contradictions(name: str, words: list[str]) -> None:
    """A piece may say otherwise than its groups, but not otherwise than itself."""
    copies: dict[int, str] = {}
    folds: dict[bool, str] = {}
    for word in words:
        cut = read_cut(word) or Cut()
        if cut.copies is not None:
            copies.setdefault(cut.copies, word)
        if cut.on_fold is not None:
            folds.setdefault(cut.on_fold, word)
    for told in (list(copies.values()), list(folds.values())):
        if len(told) > 1:
            raise BadInputError(
                f"The piece '{name}' says both '{told[0]}' and '{told[1]}'.", "Keep one of them."
            )


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
    return _with(read_cut(part), said)


def read_cut(part: str) -> Cut | None:
    """How many are cut, on the fold or alike; None when the word does not say it."""
    low = part.lower()
    found = _CUT.fullmatch(low)
    if not found or not (found[2] or low.startswith("cut ")):
        return None
    copies = int(found[1]) if found[1] else None
    if copies == 0:
        return None
    how = found[2] or ""
    on_fold = not how.startswith("no") if how.endswith("fold") else None
    return Cut(copies, on_fold, how == "alike")


def _with(cut: Cut | None, said: Said) -> Said | None:
    # Labels say name, count and fold independently, in any order (common practice).
    if cut is None:
        return None
    return replace(
        said,
        copies=said.copies if cut.copies is None else cut.copies,
        on_fold=said.on_fold if cut.on_fold is None else cut.on_fold,
        mirrored=said.mirrored and not cut.alike,
    )
