"""Fill a stash with 20,000 cloths and 2,000 makes, and time what people do with it.

    python tests/services/services_scale.py [FOLDER]

The stash is invented from a fixed seed and kept in FOLDER, where a second run finds it.
"""

from __future__ import annotations

import os
import random
import subprocess
import sys
import tempfile
import time
from dataclasses import replace
from datetime import date, timedelta
from decimal import Decimal
from pathlib import Path

from stash.cloth.record import Cloth, FibreShare, Structure
from stash.garment.make import Make
from stash.services.sample import load_sample
from stash.services.stash import Stash
from stash.store import cloths, makes, patterns
from stash.units.length import Length

CLOTHS, MAKES, AT_ONCE = 20_000, 2_000, 1_000
FIBRES = ("cotton", "linen", "wool", "silk", "viscose", "polyester")
COLOURS = ("olive", "rust", "navy", "plum", "sand", "teal")
STUFFS = ("twill", "poplin", "jersey", "cord", "flannel", "crêpe")
COMMANDS = (
    ("--version",),
    ("cloth", "list"),
    ("cloth", "list", "is:knit", "width>=140cm", "rust"),
    ("cloth", "show", "17"),
    ("cloth", "summary", "--by", "fibre"),
    ("cloth", "months"),
    ("make", "list"),
    ("check",),
    ("backup",),
)


def invented(number: int, chance: random.Random) -> Cloth:
    """One cloth like any other."""
    left = Length.from_mm(chance.randrange(300, 6000, 10))
    share = float(chance.choice((50, 65, 80, 95)))
    first, second = chance.sample(FIBRES, 2)
    return Cloth(
        name=f"{chance.choice(COLOURS)} {chance.choice(STUFFS)} {number}",
        structure=chance.choice(tuple(Structure)),
        fibres=(FibreShare(first, share), FibreShare(second, 100 - share)),
        width=Length.from_mm(chance.choice((900, 1120, 1400, 1500))),
        bought=left,
        left=left,
        weight=float(chance.randrange(60, 400, 5)),
        price=Decimal(chance.randrange(300, 4000)) / 100,
        got=date(2010, 1, 1) + timedelta(days=chance.randrange(6000)),
        place=f"shelf {chance.randrange(40)}",
    )


def fill(home: Path) -> None:
    """The sample's patterns, and very many cloths and makes."""
    chance = random.Random(20_000)
    with Stash.open(home) as stash:
        load_sample(stash)
        for start in range(0, CLOTHS, AT_ONCE):
            with stash.write("invent cloths") as session:
                cloths.insert_cloths(
                    session, [invented(start + one, chance) for one in range(AT_ONCE)]
                )
        with stash.write("invent makes") as session:
            known = patterns.all_patterns(session)
            for number in range(MAKES):
                pattern = chance.choice(known)
                size = chance.choice(pattern.sizes).label if pattern.sizes else ""
                view = chance.choice(pattern.views) if pattern.views else ""
                make = Make(name=f"make {number}", pattern_id=pattern.id, size=size, view=view)
                makes.insert_make(session, replace(make, priority=chance.randrange(1, 6)))


def main() -> None:
    """Fill once, then run every command and print how long it took."""
    place = sys.argv[1] if len(sys.argv) > 1 else tempfile.mkdtemp(prefix="stash-scale-")
    home = Path(place) / "home"
    if not (home / "stash.db").exists():
        started = time.perf_counter()
        fill(home)
        print(f"filled in {time.perf_counter() - started:.1f} s: {home}")
    for words in COMMANDS:
        started = time.perf_counter()
        done = subprocess.run(
            [sys.executable, "-m", "stash", *words],
            env=os.environ | {"STASH_HOME": str(home)},
            capture_output=True,
            text=True,
            check=False,
        )
        took = time.perf_counter() - started
        print(f"{took:6.2f} s  exit {done.returncode}  stash {' '.join(words)}")


if __name__ == "__main__":
    main()
