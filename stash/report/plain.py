"""Records and answers as plain data for JSON: lengths in millimetres, keys that stay."""

from __future__ import annotations

from dataclasses import fields, is_dataclass
from datetime import date
from decimal import Decimal
from enum import IntEnum, StrEnum
from typing import TYPE_CHECKING, Any

from stash.pairing.sources import SOURCES
from stash.units.length import Length

if TYPE_CHECKING:
    from collections.abc import Mapping

    from stash.cloth.record import Cloth
    from stash.garment.make import Make
    from stash.lay.problem import Problem
    from stash.lay.result import Lay, Placement
    from stash.pairing.judgement import (
        MuslinCandidate,
        MuslinFirst,
        Need,
        Pairing,
        PlannedRole,
        Reason,
    )
    from stash.report.records import BuyingList, LaidOut, PlanBook, Several


def plain(value: Any) -> Any:
    """Any record as dicts, lists and numbers.

    A length named `width` becomes `width_mm`; days and money become text; a pair of a name
    and a length becomes `{"name": …, "mm": …}`.
    """
    if is_dataclass(value) and not isinstance(value, (type, Length)):
        return {
            key: part
            for field in fields(value)
            for key, part in [_named(field.name, getattr(value, field.name))]
        }
    if isinstance(value, Length):
        return millimetres(value)
    if isinstance(value, IntEnum):
        return value.name.lower()
    if isinstance(value, StrEnum):
        return value.value
    if isinstance(value, (date, Decimal)):
        return str(value)
    if isinstance(value, tuple) and len(value) == 2 and isinstance(value[1], Length):
        return {"name": value[0], "mm": millimetres(value[1])}
    if isinstance(value, (tuple, list)):
        return [plain(part) for part in value]
    return value


def _named(name: str, value: Any) -> tuple[str, Any]:
    return (f"{name}_mm" if isinstance(value, Length) else name, plain(value))


def millimetres(length: Length | None) -> float | None:
    """Millimetres to a thousandth; None where there is no length."""
    return None if length is None else round(length.mm, 3)


def lay_json(laid: LaidOut) -> dict[str, Any]:
    """`stash lay --json`."""
    lay, need = laid.lay, laid.need
    return {
        "title": laid.title,
        "make": laid.make.name if laid.make else None,
        "pattern": laid.pattern.name,
        "view": laid.view,
        "size": laid.size,
        "role": laid.role.value,
        "cloth": laid.cloth.name if laid.cloth else None,
        "need_mm": millimetres(need.length),
        "need_low_mm": millimetres(need.low),
        "need_high_mm": millimetres(need.high),
        "need_likely_mm": millimetres(need.likely),
        "sureness": need.sureness.value,
        "why": need.why,
        "usable_width_mm": lay.width if lay else millimetres(laid.usable_width),
        "nap": laid.nap,
        "shrinkage": {"length_percent": laid.shrinkage[0], "width_percent": laid.shrinkage[1]},
        "cut_from_shelf_mm": millimetres(laid.cut_from_shelf),
        "have_mm": millimetres(laid.have),
        "spare_mm": millimetres(laid.spare),
        "verdict": laid.verdict.value if laid.verdict else None,
        "caution": laid.caution or None,
        "folded_need_mm": millimetres(laid.folded),
        "gap_mm": laid.problem.gap if laid.problem else None,
        "selvedge": "keep" if laid.keeps_selvedges else "cut",
        **_several(laid.several),
        "layers": laid.layers,
        **_cloth_rules(laid.problem),
        **_lay_figures(lay),
        "lower_bound_mm": laid.least_mm,
    }


def _several(several: Several | None) -> dict[str, Any]:
    """The same keys for one make: it is laid once, in one layer."""
    if several is None:
        return {"times": 1, "together_mm": None, "in_layers_mm": None}
    return {
        "times": several.times,
        "together_mm": millimetres(several.together),
        "in_layers_mm": millimetres(several.layers),
    }


def _cloth_rules(problem: Problem | None) -> dict[str, Any]:
    """The print that is met and the places kept clear."""
    repeat = problem.repeat if problem else None
    spots = problem.spots if problem else ()
    patches = problem.patches if problem else ()
    return {
        "repeat_mm": repeat.along if repeat else None,
        "repeat_across_mm": repeat.across if repeat else None,
        "half_drop": repeat.half_drop if repeat else None,
        "flaws": [
            *({"x_mm": s.x, "y_mm": s.y, "radius_mm": s.radius} for s in spots),
            *({"corners_mm": [[x, y] for x, y in patch]} for patch in patches),
        ],
    }


def _lay_figures(lay: Lay | None) -> dict[str, Any]:
    """The same keys whether or not there is a lay; null and an empty list where there is none."""
    return {
        "kind": lay.kind.value if lay else None,
        "utilisation": lay.utilisation if lay else None,
        "lower_bound_why": lay.bound.why if lay else None,
        "folds_mm": list(lay.folds) if lay else [],
        "cross_fold_mm": lay.cross_fold if lay else None,
        "folded_to_mm": lay.folded_to if lay else None,
        "repeat_at_mm": lay.repeat_at if lay else None,
        "solver": lay.solver if lay else None,
        "seed": lay.seed if lay else None,
        "seconds": lay.seconds if lay else None,
        "checked": lay.checked if lay else None,
        "placements": [_placement(placement) for placement in lay.placements] if lay else [],
    }


def _placement(placement: Placement) -> dict[str, Any]:
    return {
        "piece": placement.name,
        "copy": placement.copy,
        "polygon": [[x, y] for x, y in placement.polygon],
        "turned": placement.turn % 360 == 180,
        "turn": placement.turn,
        "mirrored": placement.mirrored,
        "on_fold": placement.on_fold,
        "single": placement.single,
        "waste": placement.waste,
    }


def pairing_json(pairing: Pairing, cloths: Mapping[int, Cloth]) -> dict[str, Any]:
    """One cloth set against one role: the same keys in `pair`, `muslin` and `plan`."""
    need = pairing.need
    return {
        "cloth": cloths[pairing.cloth_id].name,
        "cloth_id": pairing.cloth_id,
        "role": pairing.role.value,
        "verdict": pairing.verdict.value,
        "kind": need.lay.kind.value if need.lay else None,
        **need_json(need),
        "have_mm": millimetres(pairing.have),
        "spare_mm": millimetres(pairing.spare),
        "cut_from_shelf_mm": millimetres(pairing.cut_from_shelf),
        "suit": round(pairing.suit, 4),
        "suit_known": round(pairing.suit_known, 4),
        "reasons": [_reason(reason) for reason in pairing.reasons],
        "cautions": list(pairing.cautions),
        "muslin_first": _muslin_first(pairing.muslin_first, cloths),
    }


def _muslin_first(advice: MuslinFirst | None, cloths: Mapping[int, Cloth]) -> dict[str, Any] | None:
    if advice is None:
        return None
    return {"why": advice.why, "cloths": [cloths[one].name for one in advice.cloth_ids]}


def need_json(need: Need) -> dict[str, Any]:
    """A need: how long, how sure, and why."""
    return {
        "need_mm": millimetres(need.length),
        "need_low_mm": millimetres(need.low),
        "need_high_mm": millimetres(need.high),
        "need_likely_mm": millimetres(need.likely),
        "sureness": need.sureness.value,
        "need_why": need.why,
        "too_narrow": need.too_narrow or None,
        "checked": need.lay.checked if need.lay else None,
    }


def _reason(reason: Reason) -> dict[str, Any]:
    mark = None if reason.mark is None else round(reason.mark, 4)
    return {
        "factor": reason.factor,
        "mark": mark,
        "sentence": reason.sentence,
        "gate": reason.gate,
        "weight": reason.weight,
        "source": SOURCES[reason.factor],
    }


def muslin_json(candidate: MuslinCandidate, cloths: Mapping[int, Cloth]) -> dict[str, Any]:
    """One candidate for a muslin: a pairing with its score."""
    return {
        **pairing_json(candidate.pairing, cloths),
        "score": round(candidate.score, 4),
        "likeness": None if candidate.likeness is None else round(candidate.likeness, 4),
        "missed": round(candidate.missed, 4),
        "worn": None if candidate.worn is None else round(candidate.worn, 4),
        "price": None if candidate.price is None else round(candidate.price, 4),
        "why": list(candidate.why),
    }


def plan_json(book: PlanBook) -> dict[str, Any]:
    """`stash plan --json`."""
    roles: dict[int, list[PlannedRole]] = {}
    for role in book.plan.roles:
        roles.setdefault(role.make_id, []).append(role)
    return {
        "proven": book.plan.proven,
        "gap": book.plan.gap,
        "supposed": list(book.supposed),
        "moves": [
            {
                "make": book.makes[move.make_id].name,
                "role": move.role.value,
                "before": book.cloths[move.before].name if move.before is not None else None,
                "after": book.cloths[move.after].name if move.after is not None else None,
                "why": move.why,
            }
            for move in book.moves
        ],
        "makes": [
            {
                **make_json(book.makes[make_id], book),
                "roles": [_planned(role, book) for role in roles.get(make_id, [])],
            }
            for make_id in book.plan.order
        ],
        **buy_json(book.buying),
    }


def make_json(make: Make, book: PlanBook) -> dict[str, Any]:
    """A make with its references as names."""
    tests = book.makes.get(make.muslin_for or 0)
    return {
        "id": make.id,
        "make": make.name,
        "pattern": book.patterns[make.pattern_id].name,
        "view": make.view,
        "size": make.size,
        "person": book.people.get(make.person_id or 0),
        "state": make.state.value,
        "priority": make.priority,
        "due": str(make.due) if make.due else None,
        "muslin": make.muslin,
        "muslin_for": tests.name if tests else None,
    }


NO_CLOTH: dict[str, Any] = {
    "cloth": None,
    "cloth_id": None,
    "verdict": None,
    "kind": None,
    "need_mm": None,
    "need_low_mm": None,
    "need_high_mm": None,
    "need_likely_mm": None,
    "sureness": None,
    "need_why": None,
    "too_narrow": None,
    "checked": None,
    "have_mm": None,
    "spare_mm": None,
    "cut_from_shelf_mm": None,
    "suit": None,
    "suit_known": None,
    "reasons": [],
    "cautions": [],
    "muslin_first": None,
}
"""A role that is to be bought has the same keys."""


def _planned(role: PlannedRole, book: PlanBook) -> dict[str, Any]:
    chosen = pairing_json(role.pairing, book.cloths) if role.pairing else NO_CLOTH
    return {
        **chosen,
        "role": role.role.value,
        "buy": role.pairing is None,
        "why": role.why,
        "pinned": role.pinned,
        "waits": role.waits,
        "laid_with": _partner(role, book),
        "runner_up": pairing_json(role.runner_up, book.cloths) if role.runner_up else None,
    }


def _partner(role: PlannedRole, book: PlanBook) -> dict[str, str] | None:
    if role.with_ is None:
        return None
    make_id, other = role.with_
    return {"make": book.makes[make_id].name, "role": other.value}


def buy_json(buying: BuyingList) -> dict[str, Any]:
    """`stash buy --json`, and the end of `stash plan --json`."""
    return {
        "buy": [
            {
                "make": line.make,
                "role": line.shortfall.role.value,
                "why": line.shortfall.why,
                "asks": line.shortfall.asks,
                "best": line.best,
                "widths": [
                    {
                        "width_mm": millimetres(width.width),
                        "length_mm": millimetres(width.length),
                        "sureness": width.sureness.value,
                        "why": width.why,
                    }
                    for width in line.shortfall.widths
                ],
            }
            for line in buying.cloths
        ],
        "notions": [
            {"make": n.make, "notion": n.what, "amount": n.amount, "note": n.note}
            for n in buying.notions
        ],
    }
