"""What is to be laid: a make of the queue, or a pattern in some size and view."""

from __future__ import annotations

from typing import TYPE_CHECKING

from stash.errors import BadInputError, NotFoundError
from stash.garment.make import Make
from stash.services.known import known_size, known_view
from stash.store import makes, patterns
from stash.store.kept import SeveralError, nearest

if TYPE_CHECKING:
    from stash.services.stash import Stash


def pattern_as_make(stash: Stash, ref: str, *, size: str = "", view: str = "") -> Make:
    """A make of no queue (its id is 0), by default of the middle size and the first view.

    Raises:
        NotFoundError: There is no such pattern.
        BadInputError: It has no such size or view.
    """
    with stash.read() as session:
        pattern = patterns.find_pattern(session, ref)
    labels = tuple(one.label for one in pattern.sizes)
    return Make(
        name=pattern.name,
        pattern_id=pattern.id,
        size=known_size(pattern, size) or "".join(labels[len(labels) // 2 :][:1]),
        view=known_view(pattern, view) or "".join(pattern.views[:1]),
    )


def make_or_pattern(
    stash: Stash, ref: str, *, size: str = "", view: str = "", bare: bool = False
) -> Make:
    """The make of this name or number, else the pattern of it as `pattern_as_make` has it.

    A size or view may be named for a pattern only: a make has its own. With `bare` a pattern
    is meant whatever makes there are: numbers of makes and patterns are the same ones.

    Raises:
        NotFoundError: There is neither; with the names of either that are near.
        BadInputError: It has no such size or view, or has its own.
    """
    if bare:
        return pattern_as_make(stash, ref, size=size, view=view)
    try:
        with stash.read() as session:
            make = makes.find_make(session, ref)
    except NotFoundError as not_a_make:
        try:
            return pattern_as_make(stash, ref, size=size, view=view)
        except NotFoundError as no_pattern:
            raise _neither(stash, ref, not_a_make, no_pattern) from None
    if size or view:
        raise BadInputError(
            f"{make.name} is a make and has its own size and view.",
            "Leave --size and --view out, or name a pattern.",
        )
    return make


def _neither(
    stash: Stash, ref: str, not_a_make: NotFoundError, no_pattern: NotFoundError
) -> NotFoundError:
    """What to say of a word that is neither a make nor a pattern."""
    for several in (not_a_make, no_pattern):
        if isinstance(several, SeveralError) or not ref.strip():
            return several
    with stash.read() as session:
        names = [make.name for make in makes.all_makes(session)]
        names += [pattern.name for pattern in patterns.all_patterns(session)]
    hint = nearest(("make", "pattern"), names, ref.strip())
    return NotFoundError(f"There is no make or pattern called “{ref.strip()}”.", hint)
