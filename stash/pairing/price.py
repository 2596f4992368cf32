"""What the queue loses when some of a cloth goes into a test of the fit: its price in the plan.

The season plan is made as things are and with that length gone; the price is what the second is
worth less. A plan is worth what its pairings are (see `worth`), with the bonus for makes that
need nothing bought; both plans are added up alike, colours that go together left out.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from stash.cloth.cut_off import cut_off
from stash.pairing.moves import Move, moves, planned
from stash.pairing.plan import season_plan
from stash.pairing.worth import ALL_FROM_SHELF, is_tested, wanted, worth
from stash.units.length import ZERO, Length

if TYPE_CHECKING:
    from collections.abc import Callable
    from datetime import date

    from stash.config import Settings
    from stash.pairing.filling import Shelf
    from stash.pairing.judgement import PlannedRole, SeasonPlan
    from stash.pairing.needs import Needs

    Tell = Callable[[int, int, str], None]


@dataclass(frozen=True, slots=True)
class Price:
    """What the plan loses, in worth (a priority of 1 to 5 times the suit), and what moves."""

    worth: float
    moves: tuple[Move, ...] = ()


FREE = Price(0.0)


@dataclass(frozen=True, slots=True)
class Market:
    """The plan as things are, against which every cloth is priced."""

    shelf: Shelf
    needs: Needs
    settings: Settings
    today: date
    plan: SeasonPlan

    def price(self, cloth_id: int, length: Length, tell: Tell | None = None) -> Price:
        """What taking `length`, as the cloth lies on the shelf, costs the rest of the queue."""
        if all(
            role.pairing is None or role.pairing.cloth_id != cloth_id for role in self.plan.roles
        ):
            return FREE
        cloth = self.shelf.cloths[cloth_id]
        less = cut_off(cloth, length, max(ZERO, cloth.left - length)).cloth
        shelf = replace(self.shelf, cloths={**self.shelf.cloths, cloth_id: less})
        plan = season_plan(shelf, self.needs, self.settings, self.today, tell)
        lost = self._worth(self.plan) - self._worth(plan)
        return Price(max(0.0, lost), moves(planned(self.plan), plan))

    def _worth(self, plan: SeasonPlan) -> float:
        makes = {make.id: make for make in self.shelf.makes}
        by_make: dict[int, list[PlannedRole]] = {}
        for role in plan.roles:
            by_make.setdefault(role.make_id, []).append(role)
        total = 0.0
        for make_id, roles in by_make.items():
            total += sum(self._role_worth(role) for role in roles)
            if all(role.pairing is not None for role in roles):
                total += ALL_FROM_SHELF * wanted(makes[make_id], self.today)
        return total

    def _role_worth(self, role: PlannedRole) -> float:
        pairing = role.pairing
        if pairing is None:
            return 0.0
        make = next(make for make in self.shelf.makes if make.id == role.make_id)
        pattern = self.shelf.patterns[make.pattern_id]
        tested = is_tested(make, pattern, self.shelf.makes)
        cloth = self.shelf.cloths[pairing.cloth_id]
        saved = pairing.need.length or ZERO
        return worth(make, cloth, pairing, tested=tested, today=self.today, saved=saved).gain


def market(
    shelf: Shelf, needs: Needs, settings: Settings, today: date, tell: Tell | None = None
) -> Market:
    """Make the plan every cloth is priced against."""
    return Market(shelf, needs, settings, today, season_plan(shelf, needs, settings, today, tell))
