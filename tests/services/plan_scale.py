"""Plan a large season and say what it takes.

    python tests/services/plan_scale.py [MAKES] [CLOTHS]

The stash is invented from a fixed seed on the sample's patterns and thrown away. Printed are
wall and CPU seconds of the plan with no lay kept (cold) and with all kept (warm), of the
integer programme alone, and the most memory used, the solving processes counted apart.
"""

from __future__ import annotations

import random
import resource
import sys
import tempfile
import time
from datetime import timedelta
from decimal import Decimal
from pathlib import Path
from typing import TYPE_CHECKING, Any

from stash.cloth.record import Cloth, FibreShare, Hand, Structure
from stash.garment.make import Make
from stash.pairing import choose
from stash.pairing.assign import Choice, Chosen, assign
from stash.services.planning import plan_book
from stash.services.sample import load_sample
from stash.services.stash import Stash
from stash.store import cloths, makes, patterns
from stash.units.length import Length

if TYPE_CHECKING:
    from collections.abc import Callable

MAKES, CLOTHS = 40, 300
WIDTHS = (900, 1120, 1150, 1320, 1400, 1480, 1500, 1520, 1600)
STUFFS = (
    (Structure.WOVEN, "cotton", 140.0, 0.0),
    (Structure.WOVEN, "linen", 190.0, 0.0),
    (Structure.WOVEN, "wool", 280.0, 0.0),
    (Structure.KNIT, "cotton", 200.0, 35.0),
    (Structure.KNIT, "viscose", 250.0, 60.0),
)
SHADES = ("#1f2a4d", "#a4502a", "#f5efdc", "#5c6339", "#2f6f7e", "#c9a227", "#303030")


def invented(number: int, chance: random.Random) -> Cloth:
    """One cloth like those of a real shelf: most between 1 and 4 m, usual widths."""
    structure, fibre, weight, stretch = chance.choice(STUFFS)
    left = Length.from_mm(chance.randrange(500, 4500, 10))
    colour = chance.choice(SHADES)
    return Cloth(
        name=f"cloth {number}",
        structure=structure,
        fibres=(FibreShare(fibre, 100.0),),
        width=Length.from_mm(chance.choice(WIDTHS)),
        bought=left,
        left=left,
        washed=chance.random() < 0.6,
        weight=weight + chance.randrange(-40, 60, 5),
        stretch_across=stretch or None,
        stretch_along=stretch / 2 or None,
        recovery=95.0 if stretch else None,
        hand=chance.choice(tuple(Hand)),
        nap=chance.random() < 0.2,
        colour=colour,
        colour_name=colour,
        loved=chance.randint(1, 5),
        price=Decimal(chance.randrange(500, 3000)) / 100,
    )


def fill(stash: Stash, many_makes: int, many_cloths: int) -> None:
    """The sample's patterns and people; makes and cloths of our own in place of its own."""
    chance = random.Random(40_300)
    load_sample(stash)
    with stash.write("invent cloths") as session:
        cloths.insert_cloths(session, [invented(n, chance) for n in range(many_cloths)])
    with stash.write("invent makes") as session:
        known = [p for p in patterns.all_patterns(session) if p.pieces]
        for number in range(
            many_makes - sum(m.state.wants_cloth for m in makes.all_makes(session))
        ):
            pattern = chance.choice(known)
            due = stash.today() + timedelta(days=chance.randrange(200))
            makes.insert_make(
                session,
                Make(
                    name=f"make {number}",
                    pattern_id=pattern.id,
                    size=chance.choice(pattern.sizes).label if pattern.sizes else "",
                    view=chance.choice(pattern.views) if pattern.views else "",
                    priority=chance.randint(1, 5),
                    due=due if chance.random() < 0.3 else None,
                ),
            )


def cpu() -> float:
    """CPU seconds of this process and of those it started that have ended."""
    mine, theirs = (
        resource.getrusage(who) for who in (resource.RUSAGE_SELF, resource.RUSAGE_CHILDREN)
    )
    return mine.ru_utime + mine.ru_stime + theirs.ru_utime + theirs.ru_stime


def timed(what: str, work: Callable[[], Any]) -> Any:
    """Do it, and print what it took."""
    wall, used = time.perf_counter(), cpu()
    answer = work()
    print(
        f"{what:<24}{time.perf_counter() - wall:8.2f} s wall {cpu() - used:8.2f} s CPU", flush=True
    )
    return answer


def main() -> None:
    """Fill, plan twice, print."""
    many_makes = int(sys.argv[1]) if len(sys.argv) > 1 else MAKES
    many_cloths = int(sys.argv[2]) if len(sys.argv) > 2 else CLOTHS
    told = [0]
    solved: list[float] = []

    def watched(choice: Choice) -> Chosen:
        begun = time.process_time()
        found = assign(choice)
        solved.append(time.process_time() - begun)
        return found

    setattr(choose, "assign", watched)  # noqa: B010 - a plain assignment hides its name

    def tell(done: int, total: int, what: str) -> None:
        del done, total, what
        told[0] += 1

    with tempfile.TemporaryDirectory() as place, Stash.open(Path(place)) as stash:
        fill(stash, many_makes, many_cloths)
        book = timed("cold plan", lambda: plan_book(stash, progress=tell))
        print(f"{'':<24}{told[0]} reports of progress")
        timed("warm plan", lambda: plan_book(stash))
    proof = "proven" if book.plan.proven else f"within {book.plan.gap:.2%}"
    print(f"integer programmes      {', '.join(f'{one:.2f}' for one in solved)} s CPU, {proof}")
    joint = sum(role.with_ is not None for role in book.plan.roles) // 2
    given = sum(role.pairing is not None for role in book.plan.roles)
    print(f"{given} of {len(book.plan.roles)} roles have cloth, {joint} pairs laid together")
    for who, words in ((resource.RUSAGE_SELF, "this"), (resource.RUSAGE_CHILDREN, "a solving")):
        peak = resource.getrusage(who).ru_maxrss / 1024
        print(f"most memory of {words} process: {peak:.0f} MiB")


if __name__ == "__main__":
    main()
