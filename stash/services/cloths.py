"""The shelf: finding, adding, editing and removing cloths."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from stash.cloth.record import Cloth
from stash.lay.problem import COARSEST_MM
from stash.services.clashes import Kind, as_seen, keep_edit
from stash.services.cloth_edits import edit_remarks, looked_over, refuse_more_left
from stash.services.cloth_fields import CLOTH_FIELDS
from stash.services.cloth_shape import refuse_off_cloth
from stash.services.fields import read_record, texts_of
from stash.services.names import context
from stash.services.remarks import CUT_FORGOTTEN, Remark, unsaid
from stash.store import cloths as store
from stash.store import promises
from stash.store.changes import tell
from stash.units.length import ZERO, Length

if TYPE_CHECKING:
    from collections.abc import Mapping

    from stash.cloth.state import ClothState
    from stash.services.stash import Stash

CLOTH = Kind("cloth", CLOTH_FIELDS, store.get_cloth, store.update_cloth)


@dataclass(frozen=True, slots=True, kw_only=True)
class ShelfRow:
    """A cloth as it stands: lengths as it lies on the shelf now."""

    cloth: Cloth
    promised: Length
    free: Length
    """Left less promised; never negative."""
    state: ClothState


def shelf(stash: Stash, query: str = "") -> tuple[ShelfRow, ...]:
    """The cloths that match a filter such as `is:knit width>=140cm`, by name.

    Raises:
        BadInputError: The filter cannot be read.
    """
    from stash.cloth.search import matches, parse_query

    wanted = parse_query(query)
    with stash.read() as session:
        held = promises.promised_lengths(session)
        rows = [_row(cloth, held.get(cloth.id, ZERO)) for cloth in store.all_cloths(session)]
    return tuple(row for row in rows if matches(wanted, row.cloth, row.promised))


def shelf_row(stash: Stash, ref: str) -> ShelfRow:
    """One cloth as it stands."""
    with stash.read() as session:
        cloth = store.find_cloth(session, ref)
        return _row(cloth, promises.promised_length(session, cloth.id))


def get_cloth(stash: Stash, ref: str) -> Cloth:
    """The cloth meant by a name, part of a name or number."""
    with stash.read() as session:
        return store.find_cloth(session, ref)


def cloth_texts(stash: Stash, cloth: Cloth) -> dict[str, str]:
    """The text of every field, for a form or for showing."""
    with stash.read() as session:
        return texts_of(CLOTH_FIELDS, cloth, context(stash, session))


def add_cloth(stash: Stash, texts: Mapping[str, str]) -> Cloth:
    """Put a cloth on the shelf, described by the texts of `CLOTH_FIELDS`.

    Raises:
        BadInputError: With every problem; nothing is kept then.
    """
    with stash.write(f"add cloth {texts.get('name', '').strip()}") as session:
        cloth = read_record(CLOTH_FIELDS, texts, None, new_cloth, context(stash, session))
        refuse_more_left(cloth, ZERO, stash.settings.system)
        refuse_off_cloth(cloth, stash.settings.system)
        return store.insert_cloth(session, checked(cloth))


def edit_cloth(
    stash: Stash,
    ref: str,
    texts: Mapping[str, str],
    *,
    base: Cloth | None = None,
    seen: int | None = None,
    remark: Remark = unsaid,
) -> Cloth:
    """Change what was typed, leave the rest.

    Args:
        stash: The stash.
        ref: Name or number.
        texts: What was typed, by field key.
        base: The cloth as it was when a form was opened.
        seen: The same by its version.
        remark: Told what else is to be known of the edit.

    Raises:
        BadInputError: What was typed cannot be read, or cannot all be true of one cloth.
        ChangedMeanwhileError: It was changed since; with their fields and yours.
    """
    with stash.write(f"edit cloth {ref}") as session:
        old = base or as_seen(session, CLOTH, store.find_cloth(session, ref, hold=True), seen)
        tell(session, f"edit cloth {old.name}")
        known = context(stash, session)
        cloth = read_record(CLOTH_FIELDS, texts, old, Cloth, known)
        held = promises.promises_of_cloth(session, old.id)
        sound = looked_over(old, checked(cloth), texts.keys(), held, known.settings.system)
        kept = keep_edit(session, CLOTH, old, sound, known)
        for said in edit_remarks(old, kept, texts.keys(), known.settings.system):
            remark(said)
        return kept


def remove_cloth(stash: Stash, ref: str, *, remark: Remark = unsaid) -> Cloth:
    """Take a cloth off the shelf for good; RefusedError while a make holds some of it.

    Where something was cut from it, `remark` is told what becomes of that.
    """
    with stash.write(f"remove cloth {ref}") as session:
        cloth = store.find_cloth(session, ref)
        tell(session, f"remove cloth {cloth.name}")
        if promises.promises_of_cloth(session, cloth.id):
            remark(CUT_FORGOTTEN)
        store.delete_cloth(session, cloth.id)
        return cloth


def _row(cloth: Cloth, promised: Length) -> ShelfRow:
    from stash.cloth.state import state_of

    free = max(cloth.left - promised, ZERO)
    return ShelfRow(cloth=cloth, promised=promised, free=free, state=state_of(cloth, promised))


def new_cloth(*, bought: Length | None, left: Length, **values: Any) -> Cloth:
    """A new cloth was bought as it lies there, unless the person says otherwise."""
    return Cloth(bought=left if bought is None else bought, left=left, **values)


def checked(cloth: Cloth) -> Cloth:
    """Refuse selvedges wider than the cloth, a repeat no lay can meet, and fibres above 100 %."""
    from stash.errors import BadInputError

    if max(cloth.repeat_length, cloth.repeat_width).mm > COARSEST_MM:
        raise BadInputError(
            "No print repeats after more than 12 m (13 yd).",
            "Measure from one motif to the next of the same: 32 cm.",
        )
    if cloth.selvedge.nm * 2 >= cloth.width.nm:
        raise BadInputError(
            "The selvedges take up the whole width.", "Give the selvedge of one side: 1 cm."
        )
    if sum(share.percent for share in cloth.fibres) > 100.5:
        raise BadInputError("The fibres add up to more than 100 %.", "Type: 95% cotton 5% elastane")
    return cloth
