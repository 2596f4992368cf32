"""Where one form still has room on a cloth of a given length, narrowed by piece after piece.

A search that puts pieces down in turn asks of every piece still to come whether it has room
left. A corner of its free region that nothing put down since covers is proof enough; only where
there is none is the region worked out, from what it was before.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from stash.lay.ground import beside, covers, cut_out, ground_for
from stash.lay.spots import at_selvedges
from stash.lay.table import Placed

if TYPE_CHECKING:
    from stash.geometry.ring import IntRing
    from stash.lay.forms import Form
    from stash.lay.ground import Ground, Rings
    from stash.lay.spots import Corner


class Cloth(NamedTuple):
    """What is laid on: the width, what is kept clear, and the length."""

    width: int
    blocked: tuple[IntRing, ...]
    end: int

    def ground(self, put: list[Placed], form: Form) -> Ground | None:
        """Where the form may be put beside what is `put` down; None: the cloth is too small."""
        ground = ground_for(self.width, self.blocked, put, form, end=self.end)
        return None if ground is None else ground._replace(reach=self.end - form.length)


class Room(NamedTuple):
    """The free region of a form as it was last worked out."""

    form: Form
    rings: Rings
    corners: list[Corner]
    free: int = 0
    """The first of the corners that nothing put down since covers."""
    cut: int = 0
    """How many pieces had been put down."""

    @classmethod
    def whole(cls, cloth: Cloth, form: Form) -> Room | None:
        """The room on the empty cloth; None: there is none."""
        ground = cloth.ground([], form)
        return None if ground is None else cls._of(form, ground.rings(), 0)

    @classmethod
    def _of(cls, form: Form, rings: Rings, cut: int) -> Room | None:
        corners = [corner for ring in rings for corner in ring]
        return cls(form, rings, corners, 0, cut) if corners else None

    def beside(self, put: list[Placed]) -> Room | None:
        """The room left beside all that is `put` down; None: there is none."""
        form, corners, since = self.form, self.corners, put[self.cut :][::-1]
        for free in range(self.free, len(corners)):
            if not any(covers(placed, form, corners[free]) for placed in since):
                return self._replace(free=free)
        return self.worked_out(put)

    def places(self, cloth: Cloth, put: list[Placed]) -> list[Placed]:
        """Up to four free places, those at the selvedges, beside all that is `put` down."""
        room, ground = self.worked_out(put), cloth.ground(put, self.form)
        if room is None or ground is None:
            return []
        return [Placed(self.form, x, y) for x, y in at_selvedges(ground, room.corners)]

    def worked_out(self, put: list[Placed]) -> Room | None:
        """The same, with all that is `put` down cut out of it."""
        if self.cut == len(put):
            return self
        form = self.form
        rings = [ring for placed in put[self.cut :] for ring in beside(placed, form).shrunk]
        return self._of(form, cut_out(self.rings, rings), len(put))
