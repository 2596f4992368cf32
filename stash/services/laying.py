"""Laying one role of a make or pattern on a cloth, or on a bare width."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, TypedDict, Unpack

from stash.cloth.record import USUAL_SELVEDGE
from stash.cloth.washing import shelf_length, shrinkage
from stash.errors import BadInputError
from stash.pairing.needs import Known, Question, problem_of, question_for
from stash.pairing.verdict import pair, with_free, with_repeat
from stash.report.records import LaidOut
from stash.services.careful import look_longer
from stash.services.laybook import StashLays
from stash.services.pairing import chosen_role, pair_make
from stash.services.solving import doubtful, prepared
from stash.services.subject import make_or_pattern, pattern_as_make
from stash.services.whole import Whole, read_whole
from stash.store import cloths, makes
from stash.units.parse_length import parse_length, parse_width

if TYPE_CHECKING:
    from collections.abc import Callable

    from stash.cloth.record import Cloth
    from stash.garment.make import Make
    from stash.garment.pattern import Role
    from stash.lay.problem import LayKind
    from stash.pairing.judgement import Need, Pairing
    from stash.pairing.needs import Needs
    from stash.services.stash import Stash
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
    gap: str | None
    """To be kept between pieces, as typed: `1 cm`; None: they may touch."""


@dataclass(frozen=True, slots=True)
class Asked:
    """What is laid on what."""

    make: Make
    known: bool
    """It is a make of the queue, not one made up for a bare pattern."""
    role: Role
    cloth: Cloth | None
    question: Question

    @property
    def title(self) -> str:
        """What is laid on what, in words."""
        on = self.cloth.name if self.cloth is not None else "a bare width"
        return f"{self.make.name}, {self.role}, on {on}"


def lay_make(
    stash: Stash,
    ref: str,
    role: Role | str = "main",
    **how: Unpack[How],
) -> LaidOut:
    """Lay a role of a make.

    Args:
        stash: The stash.
        ref: Name or number of the make.
        role: The role to lay.
        how: On what, and how; without a cloth or width the cloth promised, else the best one.

    Raises:
        BadInputError: The width is no width, or the role cannot be laid on it.
    """
    with stash.read() as session:
        make = makes.find_make(session, ref)
    return _laid(stash, make, role, how)


def lay_pattern(
    stash: Stash,
    ref: str,
    role: Role | str = "main",
    *,
    size: str = "",
    view: str = "",
    **how: Unpack[How],
) -> LaidOut:
    """Lay a role of a pattern in one size and view, by default its middle size and first view.

    Raises:
        BadInputError: Neither a cloth nor a width is named, or the role cannot be laid on it.
    """
    return _laid(stash, pattern_as_make(stash, ref, size=size, view=view), role, how)


def lay_any(
    stash: Stash,
    ref: str,
    role: Role | str = "main",
    *,
    size: str = "",
    view: str = "",
    **how: Unpack[How],
) -> LaidOut:
    """Lay a make, or a pattern where no make has that name or number.

    A size or view may be named for a pattern only: a make has its own.
    """
    return _laid(stash, make_or_pattern(stash, ref, size=size, view=view), role, how)


def asked_of(stash: Stash, whole: Whole, make: Make, role: Role | str, how: How) -> Asked:
    """What is laid on what; a make that names neither gets its own cloth, else the best one.

    Raises:
        BadInputError: A pattern without cloth or width, both of them, or a width that is none.
    """
    chosen = chosen_role(whole, make, role)
    cloth, width = how.get("cloth"), how.get("width")
    if cloth and width:
        raise BadInputError("A lay is on a cloth or on a bare width.", "Name one of them only.")
    if not cloth and not width:
        cloth = _own_cloth(stash, whole, make, chosen)
    kind, nap = how.get("kind"), how.get("nap")
    if cloth:
        with stash.read() as session:
            found = whole.cloths[cloths.find_cloth(session, cloth).id]
        asked = _on_cloth(whole, make, chosen, found, kind, nap)
    else:
        asked = _on_width(whole, make, chosen, parse_width(width or ""), kind, nap)
    if (gap := how.get("gap")) is not None:
        asked = replace(asked, question=replace(asked.question, gap=parse_length(gap)))
    return asked


def _own_cloth(stash: Stash, whole: Whole, make: Make, role: Role) -> str:
    """The cloth promised to this role, else the best one on the shelf."""
    if not make.id:
        raise BadInputError(f"On what should {make.name} be laid?", WHERE)
    for promise in whole.promises:
        if (promise.make_id, promise.role) == (make.id, role):
            return str(promise.cloth_id)
    best = next(iter(pair_make(stash, str(make.id), role)), None)
    if best is None or best.need.length is None:
        raise BadInputError(
            f"Nothing on the shelf will do for {make.name}, {role}.",
            WHERE,
        )
    return str(best.cloth_id)


def _laid(stash: Stash, make: Make, role: Role | str, how: How) -> LaidOut:
    whole = read_whole(stash)
    asked = asked_of(stash, whole, make, role, how)
    book = StashLays(stash)
    doubtful(stash, [asked.question], book)
    if careful := how.get("careful"):
        look_longer(stash, asked.question, book, careful, how.get("told"))
    return _answer(stash, whole, asked, prepared(stash, [asked.question], book=book))


def _on_cloth(
    whole: Whole, make: Make, role: Role, cloth: Cloth, kind: LayKind | None, nap: bool | None
) -> Asked:
    if nap is not None:
        cloth = replace(cloth, nap=nap)
    question = question_for(make, whole.pattern_of(make), role, cloth)
    return Asked(make, make.id != 0, role, cloth, replace(question, kind=kind))


def _on_width(
    whole: Whole, make: Make, role: Role, width: Length, kind: LayKind | None, nap: bool | None
) -> Asked:
    usable = width - USUAL_SELVEDGE - USUAL_SELVEDGE
    if usable.nm <= 0:
        raise BadInputError(
            "Nothing is left of this width between the selvedges.", "Type a width such as 140 cm."
        )
    question = Question(
        make=make,
        pattern=whole.pattern_of(make),
        role=role,
        width=usable,
        nap=bool(nap),
        label=width,
        kind=kind,
    )
    return Asked(make, make.id != 0, role, None, question)


def _answer(stash: Stash, whole: Whole, asked: Asked, needs: Needs) -> LaidOut:
    question, cloth = asked.question, asked.cloth
    need = need_of(asked, needs)
    if need.length is None:
        raise BadInputError(need.why, _way_out(asked, need))
    judged = judge(stash, whole, asked, needs) if cloth is not None else None
    pattern = whole.pattern_of(asked.make)
    return LaidOut(
        title=asked.title,
        pattern=pattern,
        make=asked.make if asked.known else None,
        view=asked.make.view,
        size=asked.make.size,
        role=asked.role,
        cloth=cloth,
        usable_width=question.width,
        nap=question.nap,
        need=need,
        problem=problem_of(question) if need.lay is not None else None,
        lay=need.lay,
        shrinkage=shrinkage(cloth) if cloth is not None else (0.0, 0.0),
        cut_from_shelf=shelf_length(need.length, cloth) if cloth is not None else None,
        have=judged.have if judged else None,
        spare=judged.spare if judged else None,
        verdict=judged.verdict if judged else None,
    )


def _way_out(asked: Asked, need: Need) -> str:
    """What to do where there is no lay."""
    if need.too_narrow or need.no_room:
        return "Choose a wider or larger cloth, or cut that piece in two with a seam."
    if asked.question.has_pieces:
        return ""  # the reason says it
    return "Add pieces or chart rows to the pattern first."


def need_of(asked: Asked, needs: Needs) -> Need:
    """What it needs, whole repeats of the cloth's print included."""
    need = needs.answer(asked.question)
    return need if asked.cloth is None else with_repeat(need, asked.cloth, asked.role)


def judge(stash: Stash, whole: Whole, asked: Asked, needs: Needs) -> Pairing:
    """The verdict on this very lay, which need not be the shortest one."""
    assert asked.cloth is not None
    make, role, cloth = asked.make, asked.role, asked.cloth
    free = whole.free_for(cloth, make, role)
    pairing = pair(
        make,
        whole.pattern_of(make),
        role,
        cloth,
        free,
        Known(needs.answer(asked.question)),
        stash.settings,
        person=whole.person_of(make),
    )
    this = replace(pairing, need=need_of(asked, needs))
    return with_free(this, cloth, free, stash.settings)
