"""An edit of a cloth looked over: measures that belong together, and what is to be said of it."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from stash.cloth.sums import more_than, reach
from stash.cloth.washing import shrinkage, washed_length
from stash.errors import BadInputError, RefusedError
from stash.services.cloth_shape import refuse_off_cloth
from stash.trade.shrinkage import after_wash
from stash.units.format_length import Measure, show_length
from stash.units.length import ZERO, Length

if TYPE_CHECKING:
    from collections.abc import Collection, Iterator, Sequence

    from stash.cloth.record import Cloth
    from stash.config import System
    from stash.garment.make import Promise

MEASURE = "Measure again."


def refuse_more_left(cloth: Cloth, used: Length, system: System) -> None:
    """Raise BadInputError if more is left, with `used` that was cut, than was bought."""
    if more_than(cloth.left + used, cloth.bought):
        left, cut, bought = (
            show_length(one, system, Measure.TAKEN) for one in (cloth.left, used, cloth.bought)
        )
        spent = f" and {cut} was cut" if used else ""
        raise BadInputError(
            f"{left} of {cloth.name} is left{spent}, but only {bought} was bought.",
            "Correct the length left or the length bought.",
        )


def looked_over(
    old: Cloth, new: Cloth, typed: Collection[str], held: Sequence[Promise], system: System
) -> Cloth:
    """The edited cloth; bought as long as what is there, where only the length left was typed.

    Raises:
        BadInputError: Measures that cannot all be true.
        RefusedError: It is promised to makes beyond what would be left.
    """
    _refuse_less_than_promised(old, new, held, system)
    if (new.flaws, new.outline) != (old.flaws, old.outline):
        refuse_off_cloth(new, system)
    _refuse_other_than_outline(old, new, system)
    used = sum((one.length for one in held if one.cut), ZERO)
    if "bought" in typed:
        refuse_more_left(new, used, system)
    elif new.left > old.left and more_than(new.left + used, new.bought):
        return replace(new, bought=new.left + used)
    return new


def _refuse_less_than_promised(
    old: Cloth, new: Cloth, held: Sequence[Promise], system: System
) -> None:
    promised = sum((one.length for one in held if not one.cut), ZERO)
    if new.left < old.left and more_than(promised, new.left):
        raise RefusedError(
            f"{show_length(promised, system, Measure.TAKEN)} of {new.name} is promised to makes, "
            f"so {show_length(new.left, system, Measure.SPARE)} cannot be all that is left.",
            "Release a promise first (stash release MAKE), or measure again.",
        )


def _refuse_other_than_outline(old: Cloth, new: Cloth, system: System) -> None:
    """Washing makes a remnant smaller than it was drawn; that is told, not refused."""
    if not new.outline or new.washed != old.washed:
        return
    along, across = reach(new)
    if new.left > old.left and more_than(new.left, along):
        raise BadInputError(
            f"The outline of {new.name} ends at {show_length(along, system, Measure.SPARE)}, so it "
            f"cannot be {show_length(new.left, system, Measure.SPARE)} long.",
            MEASURE,
        )
    if new.width < old.width and more_than(across, new.width):
        width, wide = (show_length(one, system, Measure.WIDTH) for one in (new.width, across))
        raise BadInputError(
            f"The outline of {new.name} is {wide} across, so it cannot be {width} wide.", MEASURE
        )


def edit_remarks(old: Cloth, new: Cloth, typed: Collection[str], system: System) -> Iterator[str]:
    """What to say of an edit that was kept; `typed` are the keys of the fields typed in it."""
    if new.bought != old.bought and "bought" not in typed:
        bought = [show_length(one.bought, system, Measure.SPARE) for one in (old, new)]
        yield f"It counts as bought with {bought[1]} now, no longer with {bought[0]}."
    washing = new.washed and not old.washed
    if washing:
        yield from _of_washing(replace(new, washed=False), typed, system)
    shapes = (("flaws", new.flaws), ("outline", new.outline))
    kept = [word for word, there in shapes if there and word not in typed]
    if kept and new.selvedge != old.selvedge:
        yield (
            f"Its {' and '.join(kept)} count from the edge of the selvedge, which is another one "
            f'now: see whether that is still right, with stash cloth show "{new.name}".'
        )
    if kept and new.left and (washing or new.left < old.left):
        yield (
            f"Its {' and '.join(kept)} stayed as measured from the end that is cut first: see "
            f'whether that is still right, with stash cloth show "{new.name}".'
        )


def _of_washing(before: Cloth, typed: Collection[str], system: System) -> Iterator[str]:
    """What was measured before the wash and was not typed anew, and what to expect of it."""
    sides = [
        ("length", before.left, washed_length(before.left, before), Measure.SPARE),
        ("width", before.width, after_wash(before.width, shrinkage(before)[1]), Measure.WIDTH),
    ]
    old = [(key, was, now, kind) for key, was, now, kind in sides if key not in typed and now < was]
    if old:
        was = " by ".join(show_length(was, system, kind) for _, was, _, kind in old)
        now = " by ".join(show_length(now, system, kind) for _, _, now, kind in old)
        options = " ".join(f"--{key} …" for key, *_ in old)
        yield (
            f"{was} was measured before the wash; about {now} is to be expected now. Once "
            f'measured: stash cloth edit "{before.name}" {options}'
        )
