"""Open strip-packing instances through the estimator: `python -m stash.lay.benchmark FILE…`.

Reads the JSON form of the public `jagua-rs` and `sparrow` projects: `strip_height`, and
`items` with `demand`, `allowed_orientations` and `shape.data`.
"""

from __future__ import annotations

import argparse
import json
import math
import sys
import time
from dataclasses import asdict, dataclass
from pathlib import Path
from typing import Any

from stash.errors import BadInputError, Exit, StashError
from stash.lay.bounds import bound_of
from stash.lay.careful import search_carefully
from stash.lay.check import check
from stash.lay.forms import FINE, sheet_width
from stash.lay.obstacles import strip_of
from stash.lay.open_lay import open_copies, open_placements
from stash.lay.problem import LayKind, Problem, Shape
from stash.lay.solve import unmeasured
from stash.lay.table import Item

CLOTH_MM = 1500.0
"""Every instance is scaled to a strip this wide, so that the same grid serves all."""


@dataclass(frozen=True, slots=True)
class Score:
    """One line of the benchmark; lengths in the unit of the file."""

    name: str
    pieces: int
    width: float
    length: float
    bound: float
    density: float
    best_known: float | None
    share: float | None
    """Density over the best known density."""
    seconds: float
    tries: int
    tries_per_second: float
    checked: bool


def read_instance(path: Path) -> tuple[str, Problem, float]:
    """Name, problem (scaled to `CLOTH_MM`), and millimetres per unit of the file.

    Raises:
        BadInputError: the file is missing or has another form.
    """
    try:
        data = json.loads(path.read_text(encoding="utf-8"))
        height = float(data["strip_height"])
        scale = CLOTH_MM / height
        shapes = tuple(_shape(item, scale) for item in data["items"])
    except OSError as error:
        raise BadInputError(f"{path}: {error.strerror}.", "Give the path of a JSON file.") from None
    except (ValueError, KeyError, TypeError, ZeroDivisionError) as error:
        raise BadInputError(
            f"{path} is not a strip-packing instance ({type(error).__name__}: {error}).",
            "It needs strip_height and items with demand, allowed_orientations and shape.data.",
        ) from None
    return str(data.get("name", path.stem)), Problem(shapes, CLOTH_MM), scale


def _shape(item: dict[str, Any], scale: float) -> Shape:
    points = [(float(x) * scale, float(y) * scale) for x, y in item["shape"]["data"]]
    if len(points) > 1 and math.dist(points[0], points[-1]) < 1e-9:
        points.pop()
    return Shape(
        name=f"item {item.get('id', '?')}",
        outline=tuple(points),
        copies=int(item["demand"]),
        mirrored=False,
        turns=tuple(round(float(a)) for a in item.get("allowed_orientations") or [0]),
    )


def run(path: Path, seconds: float, seed: int, best_known: float | None) -> Score:
    """Lay one instance within `seconds` and measure it; `best_known` is a density, 0-1."""
    name, problem, scale = read_instance(path)
    start = time.perf_counter()
    copies = open_copies(problem)
    items = tuple(Item(forms) for forms in copies)
    found = search_carefully(strip_of(problem), items, seconds, seed)
    spent = time.perf_counter() - start
    area = sum(copy[0].area for copy in copies) / FINE**2
    length = found.length / FINE
    lay = unmeasured(problem, LayKind.OPEN, found.length, open_placements(problem, found.row or ()))
    density = area / (length * problem.width)
    return Score(
        name=name,
        pieces=len(copies),
        width=problem.width / scale,
        length=length / scale,
        bound=bound_of(copies, sheet_width(problem)).length / scale,
        density=density,
        best_known=best_known,
        share=density / best_known if best_known else None,
        seconds=spent,
        tries=found.tries,
        tries_per_second=found.tries / spent,
        checked=not check(problem, lay),
    )


def _line(score: Score) -> str:
    share = f"{100 * score.share:6.2f} % of best known" if score.share else " " * 23
    return (
        f"{score.name:<12} {score.pieces:>4} pieces  length {score.length:>10.3f}"
        f"  density {100 * score.density:6.2f} %  {share}"
        f"  {score.tries_per_second:8.1f} tries/s  {'legal' if score.checked else 'ILLEGAL'}"
    )


def _best_known(pairs: list[str]) -> dict[str, float]:
    """`NAME=DENSITY` pairs as a table.

    Raises:
        BadInputError: a pair is not of that form, or the density is not between 0 and 1.
    """
    table = {}
    for pair in pairs:
        name, _, value = pair.partition("=")
        try:
            density = float(value)
        except ValueError:
            density = 0.0
        if not 0 < density <= 1:
            raise BadInputError(f"--best {pair!r} is not NAME=DENSITY.", "Say trousers=0.9261.")
        table[name] = density
    return table


def main(argv: list[str] | None = None) -> int:
    """Run the files given and print a line each; exit code 0 if every lay is legal."""
    parser = argparse.ArgumentParser(prog="python -m stash.lay.benchmark", description=__doc__)
    parser.add_argument("files", nargs="+", type=Path, metavar="FILE")
    parser.add_argument("--seconds", type=float, default=10.0, help="time for each file")
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument(
        "--best",
        action="append",
        default=[],
        metavar="NAME=DENSITY",
        help="best known density of an instance, as a fraction; may be repeated",
    )
    parser.add_argument("--json", action="store_true", help="one JSON list; density as a fraction")
    asked = parser.parse_args(argv)
    scores = []
    try:
        best = _best_known(asked.best)
        for path in asked.files:
            score = run(path, asked.seconds, asked.seed, best.get(path.stem))
            scores.append(score)
            if not asked.json:
                print(_line(score), flush=True)
    except StashError as error:
        print(f"benchmark: {error}", file=sys.stderr)
        return int(error.exit_code)
    if asked.json:
        print(json.dumps([asdict(score) for score in scores], indent=2))
    return int(Exit.DONE if all(score.checked for score in scores) else Exit.BUG)


if __name__ == "__main__":
    sys.exit(main())
