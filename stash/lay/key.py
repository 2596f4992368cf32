"""The name under which a lay is stored: everything that went into it."""

from __future__ import annotations

import hashlib
import json
from dataclasses import asdict
from functools import lru_cache
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from stash.lay.problem import LayKind, Problem

ENGINE = 8
"""Raised whenever the solver may answer differently: older stored lays are then not used."""

QUICK_TRIES = 3
"""How often the quick search takes pieces up again, for every lay of the stash; see `Effort`."""


@lru_cache(maxsize=4096)  # a full shelf asks for the same few keys thousands of times
def problem_key(problem: Problem, kind: LayKind | None, seed: int, tries: int = QUICK_TRIES) -> str:
    """A hash of the pieces, the width, the rules, the kind asked for, and the engine."""
    content = asdict(problem) | {
        "asked": kind.value if kind else "best",
        "seed": seed,
        "tries": tries,
        "engine": ENGINE,
    }
    text = json.dumps(content, sort_keys=True, separators=(",", ":"))
    return hashlib.sha256(text.encode()).hexdigest()
