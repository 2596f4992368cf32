"""Runs the open nesting library in a process of its own: `python -m stash.lay.nest_worker`.

The library panics on outlines it does not like, past any `except`, and prints a trace of its
own: here that ends one worker and nothing else. One JSON request on standard input; on
standard output one JSON line for every arrangement that is better than all before. Round
follows round, each with a new seed, as many as were asked for.
"""

from __future__ import annotations

import json
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
    teller = threading.Thread(target=_tell, args=(queue, done), daemon=True)
    teller.start()
    for number in range(asked["rounds"]):
        config = spyrrow.StripPackingConfig(
            early_termination=False,
            num_workers=asked["workers"],
            seed=asked["seed"] + number,
        )
        # Set afterwards, since only so it takes parts of a second.
        config.exploration_time = timedelta(seconds=asked["exploring"])
        config.compression_time = timedelta(seconds=asked["pushing"])
        instance.solve(config, queue)
    done.set()
    teller.join()


def _tell(queue: spyrrow.ProgressQueue, done: threading.Event) -> None:
    """Write feasible arrangements as they come, each shorter than the one before."""
    best = float("inf")
    usable = (spyrrow.ReportType.ExplFeas, spyrrow.ReportType.CmprFeas, spyrrow.ReportType.Final)
    ending = False
    while not ending:
        ending = done.wait(POLL_SECONDS)  # what came last is still to be told
        for kind, found in queue.drain():
            if kind in usable and found.width < best:
                best = found.width
                _write(found)


def _write(found: Any) -> None:
    placed = [(int(p.id), *p.translation, p.rotation) for p in found.placed_items]
    sys.stdout.write(json.dumps({"length": found.width, "placed": placed}) + "\n")
    sys.stdout.flush()


if __name__ == "__main__":
    main()
