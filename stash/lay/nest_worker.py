"""Runs the open nesting library in a process of its own: `python -m stash.lay.nest_worker`.

The library panics on outlines it does not like, past any `except`, and prints a trace of its
own: here that ends one worker and nothing else. One JSON request on standard input; on
standard output one JSON line for every arrangement that is better than the last.
"""

from __future__ import annotations

import json
import sys
import threading
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
    config = spyrrow.StripPackingConfig(
        early_termination=False,
        total_computation_time=None,
        exploration_time=asked["exploring"],
        compression_time=asked["pushing"],
        num_workers=asked["workers"],
        seed=asked["seed"],
    )
    queue = spyrrow.ProgressQueue()
    done = threading.Event()
    teller = threading.Thread(target=_tell, args=(queue, done), daemon=True)
    teller.start()
    answer = instance.solve(config, queue)
    done.set()
    teller.join()
    _write(answer)


def _tell(queue: spyrrow.ProgressQueue, done: threading.Event) -> None:
    """Write feasible arrangements as they come, each shorter than the one before."""
    best = float("inf")
    usable = (spyrrow.ReportType.ExplFeas, spyrrow.ReportType.CmprFeas)
    while not done.wait(POLL_SECONDS):
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
