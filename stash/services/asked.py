"""What is laid on what, and how: from what a person asks for to a question of length."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, TypedDict

from stash.cloth.edges import with_selvedges
from stash.cloth.record import USUAL_SELVEDGE
from stash.errors import BadInputError
from stash.lay.problem import Spot
from stash.pairing.needs import Question, question_for, repeat_of
from stash.pairing.times import MOST_TIMES
from stash.services.known import refuse_without_pieces
from stash.services.pairing import chosen_role, pair_make
from stash.services.print_words import flaws_on, read_gap, read_print
from stash.store import cloths
from stash.units.parse_length import parse_width

if TYPE_CHECKING:
    from collections.abc import Callable

    from stash.cloth.record import Cloth, Flaw
    from stash.garment.make import Make
    from stash.garment.pattern import Role
    from stash.lay.problem import LayKind, Repeat
    from stash.services.progress import Progress
    from stash.services.stash import Stash
    from stash.services.whole import Whole
    from stash.units.length import Length

WHERE = "Name a cloth, or a width such as 140 cm."


class How(TypedDict, total=False):
    """On what a role is laid, and how; whatever is left out or None is for us to choose."""

    cloth: str | None
    """Name or number of a cloth."""
    width: str | None
    """A bare width in place of a cloth, edge to edge, as typed: `132 cm`. The usual selvedges
    come off it; it is taken as washed."""
    kind: LayKind | None
    """How the cloth lies; None: whichever is shortest."""
    nap: bool | None
    """As if the cloth had nap, or none; None: as the cloth is."""
    careful: float | None
    """Seconds to look for a shorter lay; None: the quick answer."""
    told: Callable[[float, float], bool] | None
    """Hears the share of `careful` spent and the best need so far in mm; where it answers
    False the search ends with the best so far."""
    weighed: Progress | None
    """Hears how many lays are worked out while the best cloth is chosen."""
    gap: str | None
    """To be kept between pieces, as typed: `1 cm`; None: they may touch."""
    keep_selvedges: bool | None
    """Pieces may reach the very edge of the cloth; else the selvedges are cut away."""
    times: int | None
    """For so many makes of the same pieces at once, 2 to 12; None: for one."""
    repeat: str | None
    """As if the print had this repeat, as typed: `32 cm x 20 cm half-drop`; None: as it is."""
    flaws: tuple[str, ...]
    """As if the cloth had these flaws too, as typed (see `print_words.flaws_on`)."""


@dataclass(frozen=True, slots=True)
class Asked:
    """What is laid on what."""

    make: Make
    known: bool
    """It is a make of the queue, not one made up for a bare pattern."""
    role: Role
    cloth: Cloth | None
    question: Question
    keeps_selvedges: bool = False

    @property
    def title(self) -> str:
        """What is laid on what, in words."""
        on = self.cloth.name if self.cloth is not None else "a bare width"
        times = f" x {self.question.times}" if self.question.times > 1 else ""
        return f"{self.make.name}{times}, {self.role}, on {on}"

    @property
    def once(self) -> Asked:
        """The same for one make only."""
        if self.question.times == 1:
            return self
        return replace(self, question=replace(self.question, times=1))

    def in_kind(self, kind: LayKind | None) -> Asked:
        """The same in a kind of lay; None: in whichever is shortest."""
        return replace(self, question=replace(self.question, kind=kind))


def asked_of(stash: Stash, whole: Whole, make: Make, role: Role | str, how: How) -> Asked:
    """What is laid on what; a make that names neither gets its own cloth, else the best one.

    Raises:
        BadInputError: A pattern without cloth or width, both of them, a width that is none, or
            selvedges kept on a remnant, or a flaw that lies beside the cloth.
    """
    chosen = chosen_role(whole, make, role)
    cloth, width = how.get("cloth"), how.get("width")
    if cloth and width:
        raise BadInputError("A lay is on a cloth or on a bare width.", "Name one of them only.")
    if not cloth and not width:
        cloth = _own_cloth(stash, whole, make, chosen, how.get("weighed"))
    if cloth:
        with stash.read() as session:
            found = whole.cloths[cloths.find_cloth(session, cloth).id]
        asked = _on_cloth(whole, make, chosen, found, how)
    else:
        asked = _on_width(whole, make, chosen, parse_width(width or ""), how)
    if (typed := how.get("gap")) is not None:
        gap = read_gap(typed, stash.settings.system)
        asked = replace(asked, question=replace(asked.question, gap=gap))
    if (times := how.get("times")) is not None:
        asked = replace(asked, question=_for_several(asked.question, times))
    return asked


def _for_several(question: Question, times: int) -> Question:
    if not 2 <= times <= MOST_TIMES:
        raise BadInputError(
            f"{times} makes cannot be laid at once.", f"Type a number from 2 to {MOST_TIMES}."
        )
    refuse_without_pieces(
        question,
        "so there is nothing to lay together",
        "Add pieces to the pattern first, or lay it once.",
    )
    return replace(question, times=times)


def _own_cloth(stash: Stash, whole: Whole, make: Make, role: Role, weighed: Progress | None) -> str:
    """The cloth promised to this role, else the best one on the shelf."""
    if not make.id:
        raise BadInputError(f"On what should {make.name} be laid?", WHERE)
    for promise in whole.promises:
        if (promise.make_id, promise.role) == (make.id, role):
            return str(promise.cloth_id)
    best = next(iter(pair_make(stash, str(make.id), role, progress=weighed)), None)
    if best is None or best.need.length is None:
        raise BadInputError(
            f"Nothing on the shelf will do for {make.name}, {role}.",
            WHERE,
        )
    return str(best.cloth_id)


def _on_cloth(whole: Whole, make: Make, role: Role, cloth: Cloth, how: How) -> Asked:
    keep = bool(how.get("keep_selvedges"))
    if typed := how.get("repeat"):
        along, across, half_drop = read_print(typed)
        cloth = replace(cloth, repeat_length=along, repeat_width=across, half_drop=half_drop)
    between = cloth.width - cloth.selvedge - cloth.selvedge
    cloth = replace(cloth, flaws=(*cloth.flaws, *_flaws(how, between)))
    if keep and cloth.outline:
        raise BadInputError(
            f"{cloth.name} is a remnant: pieces are laid within its outline.",
            "Leave the selvedges out of it.",
        )
    if keep:
        cloth = with_selvedges(cloth)
    if (nap := how.get("nap")) is not None:
        cloth = replace(cloth, nap=nap)
    question = question_for(make, whole.pattern_of(make), role, cloth)
    question = replace(question, kind=how.get("kind"))
    return Asked(make, make.id != 0, role, cloth, question, keep)


def _flaws(how: How, between: Length) -> tuple[Flaw, ...]:
    return tuple(f for typed in how.get("flaws") or () for f in flaws_on(typed, between))


def _repeat(how: How, role: Role) -> Repeat | None:
    """The repeat typed for a bare width."""
    if not (typed := how.get("repeat")):
        return None
    along, across, half_drop = read_print(typed)
    return repeat_of(along.mm, across.mm, half_drop, role)


def _on_width(whole: Whole, make: Make, role: Role, width: Length, how: How) -> Asked:
    keep = bool(how.get("keep_selvedges"))
    between = width - USUAL_SELVEDGE - USUAL_SELVEDGE
    usable = width if keep else between
    if usable.nm <= 0:
        raise BadInputError(
            "Nothing is left of this width between the selvedges.", "Type a width such as 140 cm."
        )
    flaws = _flaws(how, between)
    aside = USUAL_SELVEDGE.mm if keep else 0.0
    question = Question(
        make=make,
        pattern=whole.pattern_of(make),
        role=role,
        width=usable,
        nap=bool(how.get("nap")),
        label=width,
        spots=tuple(Spot(f.x, f.y + aside, f.radius) for f in flaws if not f.points),
        patches=tuple(tuple((x, y + aside) for x, y in f.points) for f in flaws if f.points),
        repeat=_repeat(how, role),
        kind=how.get("kind"),
    )
    return Asked(make, make.id != 0, role, None, question, keep)
