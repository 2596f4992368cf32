"""How often a cloth of the sample that is short for a make can be made to fit, and what it takes.

    python tests/services/fit_in_sample.py [MOST] [SEED]

Every make that waits and every cloth that suits it, is short for it by at most a third, and has
pieces to lay; at most MOST pairings, taken by a fixed seed. Ends with 1 if any lay of an answer
does not pass the independent check.
"""

from __future__ import annotations

import random
import statistics
import sys
import time
from collections import Counter
from typing import TYPE_CHECKING

from stash.garment.pattern import Role
from stash.lay.check import check
from stash.pairing.judgement import Verdict
from stash.services.fit_in import fit_in
from stash.services.pairing import judged
from stash.services.stash import Stash
from stash.services.whole import read_whole

if TYPE_CHECKING:
    from stash.report.fit_records import FitIn

MOST = 20
NEAR = 1 / 3


def unsound(fit: FitIn) -> int:
    """Lays told in the answer that break a rule of their own problem."""
    rungs = (*fit.ladder, *fit.alone)
    drawn = [rung.laid for rung in rungs] + [one.laid for rung in rungs for one in rung.given]
    return sum(
        1 for laid in drawn if laid and laid.lay and laid.problem and check(laid.problem, laid.lay)
    )


def main() -> int:
    """Look for the ways of each, and print what came out."""
    most = int(sys.argv[1]) if len(sys.argv) > 1 else MOST
    seed = int(sys.argv[2]) if len(sys.argv) > 2 else 1
    faults = 0
    with Stash.sample() as stash:
        whole = read_whole(stash)
        asked = [(m, Role.MAIN, c) for m in whole.waiting() for c in whole.cloths.values()]
        short = [
            one
            for one in judged(stash, whole, asked)
            if one.verdict in (Verdict.SHORT, Verdict.CLOSE)
            and one.spare is not None
            and one.need.length is not None
            and one.need.lay is not None
            and -one.spare.nm <= NEAR * one.need.length.nm
        ]
        tried = random.Random(seed).sample(short, min(most, len(short)))
        spent, done, kinds = [], [], Counter[str]()
        for one in tried:
            start = time.perf_counter()
            fit = fit_in(stash, str(one.make_id), str(one.cloth_id), one.role)
            spent.append(time.perf_counter() - start)
            faults += unsound(fit)
            ways = [rung.way for rung in fit.ladder if rung.way is not None]
            if fit.fits:
                done.append(fit)
                kinds.update(way.kind.value for way in ways)
            names = ", ".join(way.name for way in ways) or "as it is"
            print(
                f"{fit.make.name} on {fit.cloth.name}: {'fits' if fit.fits else 'short'}"
                f"{' (proven)' if fit.least else ''}, cost {fit.cost:.2f}, {fit.laid} laid, "
                f"{spent[-1]:.0f} s: {names}",
                flush=True,
            )
    print(f"{len(short)} pairings are close or short by at most a third; {len(tried)} tried:")
    print(f"{len(done)} can be made to fit, {sum(f.least for f in done)} proven cheapest")
    print(f"ways taken: {', '.join(f'{kind} {n}' for kind, n in kinds.most_common())}")
    print(f"{statistics.median(spent):.0f} s each (median), {max(spent):.0f} s at most")
    print(f"{faults} lays that are not legal")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
