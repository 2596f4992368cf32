"""The name under which a lay is stored: everything that went into it."""

from __future__ import annotations

import hashlib
import json
from dataclasses import asdict, replace
from functools import lru_cache
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from stash.lay.problem import LayKind, Problem, Shape

ENGINE = 15
"""Raised whenever the solver may answer differently: older stored lays are then not used."""

QUICK_TRIES = 3
"""How often the quick search takes pieces up again, for every lay of the stash; see `Effort`."""


@lru_cache(maxsize=4096)  # a full shelf asks for the same few keys thousands of times
def problem_key(problem: Problem, kind: LayKind | None, seed: int, tries: int = QUICK_TRIES) -> str:
    """A hash of the pieces, the width, the rules, the kind asked for, and the engine."""
    content = asdict(replace(problem, shapes=())) | {
        "shapes": _shapes_key(problem.shapes),
        "asked": kind.value if kind else "best",
        "seed": seed,
        "tries": tries,
        "engine": ENGINE,
    }
    return _hashed(content)


@lru_cache(maxsize=512)  # the same pieces are asked for on every width
def _shapes_key(shapes: tuple[Shape, ...]) -> str:
    return _hashed([asdict(shape) for shape in shapes])


def _hashed(content: object) -> str:
    text = json.dumps(content, sort_keys=True, separators=(",", ":"))
    return hashlib.sha256(text.encode()).hexdigest()
