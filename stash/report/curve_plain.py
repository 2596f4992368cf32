"""`stash lay --curve --json`: lengths in millimetres, keys that stay."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from stash.report.plain import millimetres

if TYPE_CHECKING:
    from stash.pairing.width_curve import CurveDot, CurvePoint, WidthCurve


def curve_json(curve: WidthCurve) -> dict[str, Any]:
    """The whole curve with its cloths."""
    return {
        "title": curve.title,
        "make": curve.make,
        "pattern": curve.pattern,
        "view": curve.view,
        "size": curve.size,
        "role": curve.role.value,
        "kind": curve.kind.value if curve.kind else None,
        "nap": curve.nap,
        "by_chart": curve.by_chart,
        "tried": curve.laid,
        "points": [_point(point) for point in curve.points],
        "cloths": [_dot(dot) for dot in curve.dots],
    }


def _point(point: CurvePoint) -> dict[str, Any]:
    return {
        "label_width_mm": millimetres(point.label),
        "usable_width_mm": millimetres(point.usable),
        "need_mm": millimetres(point.need),
        "found_at_mm": millimetres(point.found_at),
        "sureness": point.sureness.value,
        "why": point.why,
    }


def _dot(dot: CurveDot) -> dict[str, Any]:
    pairing = dot.pairing
    return {
        "letter": dot.letter,
        "cloth": dot.cloth.name,
        "cloth_id": dot.cloth.id,
        "usable_width_mm": millimetres(dot.at),
        "free_mm": millimetres(pairing.have),
        "need_mm": millimetres(pairing.need.length),
        "found_at_mm": millimetres(dot.found_at),
        "spare_mm": millimetres(pairing.spare),
        "sureness": pairing.need.sureness.value,
        "why": pairing.need.why,
        "verdict": pairing.verdict.value,
        "suit": round(pairing.suit, 4),
        "apart": dot.apart or None,
    }
