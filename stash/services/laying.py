"""Laying one role of a make or pattern on a cloth, or on a bare width."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Unpack

from stash.cloth.washing import shelf_length, shrinkage
from stash.errors import BadInputError
from stash.lay.problem import LayKind
from stash.pairing.cautions import part_promised
from stash.pairing.needs import Known, problem_of
from stash.pairing.verdict import lengthened, pair, with_free, with_repeat
from stash.report.records import LaidOut
from stash.services.asked import asked_of
from stash.services.careful import keep, look_longer
from stash.services.laybook import StashLays
from stash.services.several import shorter_way
from stash.services.solving import doubtful, prepared
from stash.services.standing_in import stand_in
from stash.services.subject import make_or_pattern, pattern_as_make
from stash.services.whole import read_whole
from stash.services.widening import look_narrower
from stash.store import makes
from stash.units.length import Length

if TYPE_CHECKING:
    from stash.garment.make import Make
    from stash.garment.pattern import Pattern, Role
    from stash.pairing.judgement import Need, Pairing
    from stash.pairing.needs import Needs
    from stash.services.asked import Asked, How
    from stash.services.stash import Stash
    from stash.services.whole import Whole


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


def _laid(stash: Stash, make: Make, role: Role | str, how: How) -> LaidOut:
    whole = read_whole(stash)
    asked = asked_of(stash, whole, make, role, how)
    laid = laid_out(stash, whole, asked, how)
    if asked.question.kind is not None or laid.several is not None:
        return laid
    return _beside_folded(stash, whole, asked, laid)


def _beside_folded(stash: Stash, whole: Whole, asked: Asked, laid: LaidOut) -> LaidOut:
    """The shortest lay, and what it would need folded, the usual way."""
    if laid.lay is None or laid.lay.kind is LayKind.FOLDED:
        return laid
    folded = asked.in_kind(LayKind.FOLDED)
    book = StashLays(stash)
    doubtful(stash, [folded.question], book)
    need = need_of(folded, prepared(stash, [folded.question], book=book))
    if need.lay is None or not need.lay.folded_to:  # nothing is cut twice
        return laid
    if need.lay.need < laid.lay.need:  # found when somebody looked longer for a folded one
        keep(stash, asked.question, need.lay, book)
        return laid_out(stash, whole, asked, {})
    return replace(laid, folded=need.length)


def laid_out(stash: Stash, whole: Whole, asked: Asked, how: How) -> LaidOut:
    """The lay of what is asked, worked out where it is not kept, and its verdict.

    Raises:
        BadInputError: It cannot be laid.
    """
    book = StashLays(stash)
    one = asked.once
    questions = [asked.question] if one is asked else [asked.question, one.question]
    doubtful(stash, questions, book)
    if careful := how.get("careful"):
        look_longer(stash, asked.question, book, careful, how.get("told"))
    needs = prepared(stash, questions, book=book)
    if look_narrower(stash, questions, book):
        needs = prepared(stash, questions, book=book)
    if one is asked:
        need = need_of(asked, needs)
        block = None
        if need.lay is None and need.likely is not None:
            block = stand_in(asked.question, book, stash.settings.seed)
        return replace(_answer(stash, whole, asked, need), stand_in=block)
    need, several = shorter_way(asked, need_of(asked, needs), need_of(one, needs))
    shown = one if several.layers_win else asked
    title = f"{asked.title}, one of {several.times} layers" if shown is one else asked.title
    return replace(_answer(stash, whole, shown, need), title=title, several=several)


def _answer(stash: Stash, whole: Whole, asked: Asked, need: Need) -> LaidOut:
    cloth = asked.cloth
    if need.length is None:
        raise BadInputError(need.why, way_out(asked, need))
    judged = judge(stash, whole, asked, need) if cloth is not None else None
    laid = drawn(asked, whole.pattern_of(asked.make), need, judged)
    if cloth is None:
        return laid
    return replace(
        laid, caution=part_promised(cloth, whole.free_for(cloth, asked.make, asked.role))
    )


def drawn(asked: Asked, pattern: Pattern, need: Need, judged: Pairing | None) -> LaidOut:
    """What a face shows of a need that is known; `judged` with a cloth only."""
    assert need.length is not None
    question, cloth = asked.question, asked.cloth
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
        keeps_selvedges=asked.keeps_selvedges,
    )


def way_out(asked: Asked, need: Need) -> str:
    """What to do where there is no lay."""
    if need.too_narrow or need.no_room:
        return "Choose a wider or larger cloth, or cut that piece in two with a seam."
    if asked.question.has_pieces:
        return ""  # the reason says it
    return "Add pieces or chart rows to the pattern first."


def need_of(asked: Asked, needs: Needs) -> Need:
    """What it needs, whole repeats of the cloth's print included."""
    need = needs.answer(asked.question)
    if asked.cloth is not None:
        return with_repeat(need, asked.cloth, asked.role)
    repeat = asked.question.repeat
    return need if repeat is None else lengthened(need, Length.from_mm(repeat.along))


def judge(stash: Stash, whole: Whole, asked: Asked, need: Need) -> Pairing:
    """The verdict on this very need, which need not be the least one."""
    assert asked.cloth is not None
    make, role, cloth = asked.make, asked.role, asked.cloth
    free = whole.free_for(cloth, make, role)
    pairing = pair(
        make,
        whole.pattern_of(make),
        role,
        cloth,
        free,
        Known(need),
        stash.settings,
        person=whole.person_of(make),
        beside=whole.beside(make),
    )
    return with_free(replace(pairing, need=need), cloth, free, stash.settings)
