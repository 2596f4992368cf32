"""The hard asks: structure, stretch and nap. A cloth that fails one is unsuited."""

from __future__ import annotations

from typing import TYPE_CHECKING

from stash.cloth.record import Structure
from stash.pairing.desire import between
from stash.pairing.judgement import Reason

if TYPE_CHECKING:
    from stash.pairing.case import Case

NO_STRETCH_ABOVE = 12.0
"""Per cent. Woven cloth counts as high stretch above this (ASTM D3107-07), and takes stretch
yarns to get there."""

STRETCH_YARNS = frozenset(
    {
        "elastane",
        "elastodiene",
        "elastomultiester",
        "elastolefin",
        "polyester",
        "polyamide",
    }
)
"""Elastic fibres, and those whose filaments are textured to stretch."""

FLOOR = 0.1
"""The lowest mark of a cloth that passes: it can be cut, only not well."""

HOW_STRETCH = (
    "Fold it a little in from a raw edge, mark 10 cm (4 in), stretch it gently and measure again"
)


def gates(case: Case) -> tuple[Reason, ...]:
    """The hard asks this role makes, each with its mark."""
    asks = case.asks
    found = [_structure(case), _nap(case)]
    found.append(_stretch(case, "across", asks.stretch_across, case.cloth.stretch_across))
    found.append(_stretch(case, "along", asks.stretch_along, case.cloth.stretch_along))
    return tuple(reason for reason in found if reason is not None)


def failed(reasons: tuple[Reason, ...]) -> tuple[Reason, ...]:
    """The gates among `reasons` that the cloth does not pass."""
    return tuple(r for r in reasons if r.gate and r.mark == 0)


def unmeasured(reasons: tuple[Reason, ...]) -> tuple[Reason, ...]:
    """The gates among `reasons` nobody can answer until something is measured."""
    return tuple(r for r in reasons if r.gate and r.mark is None)


def _structure(case: Case) -> Reason | None:
    wanted = case.asks.structures
    if not wanted:
        return None
    have = case.cloth.structure
    if have in wanted:
        return Reason("structure", 1.0, f"It is {have}, as the pattern asks.", gate=True)
    names = " or ".join(wanted)
    return Reason("structure", 0.0, f"The pattern asks for {names}; this is {have}.", gate=True)


def _nap(case: Case) -> Reason | None:
    if not case.cloth.nap:
        return None
    if case.asks.nap_allowed:
        return Reason(
            "nap", 1.0, "It has nap: every piece lies the same way up, and the length counts that."
        )
    return Reason("nap", 0.0, "It has nap, and the pattern rules out cloth with nap.", gate=True)


def _stretch(case: Case, way: str, asked: float | None, have: float | None) -> Reason | None:
    if not asked:
        return None
    factor = f"stretch {way}"
    if have is None:
        return _unmeasured_stretch(case, factor, way, asked)
    if round(have, 1) < round(asked, 1):  # nobody measures stretch finer
        return Reason(
            factor,
            0.0,
            f"It stretches {have:.0f} % {way}; the pattern needs at least {asked:.0f} %.",
            gate=True,
        )
    # A little in hand is better than none; far more than asked and the garment sags.
    mark = between(have, asked * 0.8, asked * 1.1, asked * 2 + 25, asked * 3 + 75)
    if have > asked * 2 + 25:
        end = "far more than it needs, so it may sag"
    else:
        end = f"and the pattern needs {asked:.0f} %"
    return Reason(factor, max(FLOOR, mark), f"It stretches {have:.0f} % {way}, {end}.", gate=True)


def _unmeasured_stretch(case: Case, factor: str, way: str, asked: float) -> Reason:
    cloth = case.cloth
    rigid = cloth.fibres and not any(share.fibre in STRETCH_YARNS for share in cloth.fibres)
    if cloth.structure is Structure.WOVEN and rigid and asked > NO_STRETCH_ABOVE:
        return Reason(
            factor,
            0.0,
            f"Woven cloth without stretch yarns does not stretch the {asked:.0f} % {way} the "
            "pattern needs.",
            gate=True,
        )
    return Reason(
        factor,
        None,
        f"Stretch {way} is not measured and the pattern needs {asked:.0f} %. {HOW_STRETCH}: "
        f"10 cm must reach {10 + asked / 10:.1f} cm.",
        gate=True,
    )
