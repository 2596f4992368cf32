"""Runs the open nesting library in a process of its own: `python -m stash.lay.nest_worker`.

The library panics on outlines it does not like, past any `except`, and prints a trace of its
own: here that ends one worker and nothing else. One JSON request on standard input; on
standard output one JSON line for every arrangement that is better than all before, and for
some on which pieces still overlap. Round follows round, each with a new seed, as many as were
asked for.
"""

from __future__ import annotations

import json
import math
import sys
import threading
from datetime import timedelta
from typing import Any

import spyrrow

POLL_SECONDS = 0.05


def main() -> None:
    """Answer the request on standard input."""
    asked = json.load(sys.stdin)
    items = [
        spyrrow.Item(
            str(number),
            [(x, y) for x, y in item["ring"]],
            item["copies"],
            [float(turn) for turn in item["turns"]],
        )
        for number, item in enumerate(asked["items"])
    ]
    instance = spyrrow.StripPackingInstance("lay", asked["width"], items)
    queue = spyrrow.ProgressQueue()
    done = threading.Event()
    teller = threading.Thread(target=_tell, args=(queue, done, asked["near_misses"]), daemon=True)
    teller.start()
    for number in range(asked["rounds"]):
        config = spyrrow.StripPackingConfig(
            early_termination=False,
            quadtree_depth=asked["depth"],
            num_workers=asked["workers"],
            seed=asked["seed"] + number,
        )
        # Set afterwards, since only so it takes parts of a second.
        config.exploration_time = timedelta(seconds=asked["exploring"])
        config.compression_time = timedelta(seconds=asked["pushing"])
        instance.solve(config, queue)
    done.set()
    teller.join()


def _tell(queue: spyrrow.ProgressQueue, done: threading.Event, near_misses: bool) -> None:
    """Write arrangements as they come: each shorter than the one before, and `near_misses`.

    Of these the last of those that came together, if it is on less length than all others.
    """
    best = math.inf
    apart = (spyrrow.ReportType.ExplFeas, spyrrow.ReportType.CmprFeas, spyrrow.ReportType.Final)
    ending = False
    while not ending:
        ending = done.wait(POLL_SECONDS)  # what came last is still to be told
        near_miss = None
        for kind, found in queue.drain():
            if kind not in apart:
                near_miss = found if near_misses else None
            elif found.width < best:
                best = found.width
                _write(found, overlapping=False)
        if near_miss is not None and near_miss.width < best:
            _write(near_miss, overlapping=True)


def _write(found: Any, overlapping: bool) -> None:
    placed = [(int(p.id), *p.translation, p.rotation) for p in found.placed_items]
    told = {"length": found.width, "placed": placed, "overlapping": overlapping}
    sys.stdout.write(json.dumps(told) + "\n")
    sys.stdout.flush()


if __name__ == "__main__":
    main()
