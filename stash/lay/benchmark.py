"""Open strip-packing instances through the estimator: `python -m stash.lay.benchmark FILE…`.

With `--alone` the open nesting library lays each of them too, with the same seconds and all
cores and in the same run, so that both meet the same machine: ours then has as long as the
library took, with its beginning and end. Reads the JSON form of the public `jagua-rs` and
`sparrow` projects: `strip_height`, and `items` with `demand`, `allowed_orientations` and
`shape.data`.
"""

from __future__ import annotations

import argparse
import json
import math
import os
import sys
import time
from dataclasses import asdict, dataclass, replace
from pathlib import Path
from typing import TYPE_CHECKING, Any, NamedTuple

from stash.errors import BadInputError, Exit, StashError
from stash.lay.bounds import bound_of, least_length
from stash.lay.careful import Careful
from stash.lay.check import check
from stash.lay.forms import FINE, sheet_width
from stash.lay.nester import OWN_DEPTH, Nester, Work, can_nest
from stash.lay.obstacles import strip_of
from stash.lay.open_lay import open_copies, open_placements
from stash.lay.problem import LayKind, Problem, Shape
from stash.lay.solve import unmeasured
from stash.lay.table import Item

if TYPE_CHECKING:
    from stash.lay.table import Strip

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
    alone: float | None
    """Density the open nesting library reaches alone."""
    alone_seconds: float


class Asked(NamedTuple):
    """What every instance is laid with."""

    seconds: float
    seed: int
    alone: bool
    """The library lays it alone, too."""


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


def run(path: Path, asked: Asked, best_known: float | None) -> Score:
    """Lay one instance and measure it; `best_known` is a density, 0-1."""
    name, problem, scale = read_instance(path)
    strip, copies = strip_of(problem), open_copies(problem)
    items = tuple(Item(forms) for forms in copies)
    area = sum(copy[0].area for copy in copies) / FINE**2
    bound = bound_of(copies, sheet_width(problem))
    alone, alone_seconds = None, 0.0
    if asked.alone:
        length, alone_seconds = lay_alone(strip, items, asked.seconds, asked.seed)
        alone = area / (length * problem.width) if length else None
    seconds = max(asked.seconds, alone_seconds)
    start = time.perf_counter()
    with Careful(strip, items, seconds, asked.seed) as careful:
        found = careful.search(enough=least_length(bound))
    spent = time.perf_counter() - start
    length = found.length / FINE
    lay = unmeasured(problem, LayKind.OPEN, found.length, open_placements(problem, found.row or ()))
    density = area / (length * problem.width)
    return Score(
        name=name,
        pieces=len(copies),
        width=problem.width / scale,
        length=length / scale,
        bound=bound.length / scale,
        density=density,
        best_known=best_known,
        share=density / best_known if best_known else None,
        seconds=spent,
        tries=found.tries,
        tries_per_second=found.tries / spent,
        checked=not check(problem, lay),
        alone=alone,
        alone_seconds=alone_seconds,
    )


def lay_alone(
    strip: Strip, items: tuple[Item, ...], seconds: float, seed: int
) -> tuple[float | None, float]:
    """Length in mm the library reaches alone on all cores, by its own account, and its seconds.

    It gets the outlines as drawn, with no gap, and takes some time more to begin and to end.
    None: it cannot lay this, or it died.
    """
    start = time.perf_counter()
    if not can_nest(strip, items):
        return None, 0.0
    drawn = {
        item.forms: Item(tuple(replace(form, ring=form.outline) for form in item.forms))
        for item in items
    }
    copies = tuple(drawn[item.forms] for item in items)
    work = Work.lasting(seconds, os.cpu_count() or 1, seed)
    work = work._replace(depth=OWN_DEPTH, near_misses=False)
    with Nester(strip, copies, work) as library:
        length = library.wait()
    return length, time.perf_counter() - start


def _line(score: Score) -> str:
    share = f"{100 * score.share:6.2f} % of best known" if score.share else " " * 23
    return (
        f"{score.name:<12} {score.pieces:>4} pieces  length {score.length:>10.3f}"
        f"  density {100 * score.density:6.2f} %  {share}  {score.seconds:5.1f} s"
        f"  {score.tries_per_second:8.1f} tries/s  {'legal' if score.checked else 'ILLEGAL'}"
        f"{_alone(score)}"
    )


def _alone(score: Score) -> str:
    """How the library did alone, and who was better."""
    if not score.alone_seconds:
        return ""
    if score.alone is None:
        return "  library alone: nothing"
    mark = "as good" if score.density >= score.alone - 5e-7 else "WORSE"
    share = f" = {100 * score.alone / score.best_known:.2f} %" if score.best_known else ""
    return (
        f"  library alone {100 * score.alone:6.2f} %{share} in {score.alone_seconds:.1f} s: {mark}"
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
    parser.add_argument("--perfect", action="store_true", help="the pieces of every file tile")
    parser.add_argument("--alone", action="store_true", help="the library alone as well")
    parser.add_argument("--json", action="store_true", help="one JSON list; density as a fraction")
    asked = parser.parse_args(argv)
    how = Asked(asked.seconds, asked.seed, asked.alone)
    scores = []
    try:
        best = _best_known(asked.best)
        for path in asked.files:
            known = 1.0 if asked.perfect else best.get(path.stem)
            score = run(path, how, known)
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
