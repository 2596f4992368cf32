"""Lays as JSON text, for keeping and for others to read."""

from __future__ import annotations

import json
from dataclasses import asdict

from stash.lay.problem import LayKind
from stash.lay.result import Bound, Lay, Placement


def lay_to_json(lay: Lay) -> str:
    """The whole lay as compact JSON; lengths in mm."""
    return json.dumps(asdict(lay), separators=(",", ":"))


def lay_from_json(text: str) -> Lay:
    """The lay `lay_to_json` wrote.

    Raises:
        ValueError, KeyError, TypeError: the text is not such a lay.
    """
    data = json.loads(text)
    placements = tuple(
        Placement(**{**p, "polygon": tuple((x, y) for x, y in p["polygon"])})
        for p in data.pop("placements")
    )
    bound = Bound(**data.pop("bound"))
    kind = LayKind(data.pop("kind"))
    folds = tuple(data.pop("folds"))
    return Lay(kind=kind, bound=bound, placements=placements, folds=folds, **data)
