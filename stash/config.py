"""Settings: one small TOML file, read into one frozen record."""

from __future__ import annotations

import json
import tomllib
from dataclasses import dataclass
from decimal import Decimal
from enum import StrEnum
from typing import TYPE_CHECKING, Any

from stash.errors import BadInputError
from stash.paths import make_private

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path


class System(StrEnum):
    """The units answers are given in. Typed input is understood in both, always."""

    METRIC = "metric"
    IMPERIAL = "imperial"


SHOP_STEPS_MM = {System.METRIC: 100.0, System.IMPERIAL: 114.3}
"""Shops cut by 10 cm, in the US by 1/8 yard (from memory)."""

SUIT_WEIGHTS: dict[str, float] = {
    "purpose": 3.0,
    "stretch across": 2.0,
    "stretch along": 1.0,
    "recovery": 1.0,
    "stability": 1.5,
    "weight": 2.0,
    "hand": 2.0,
    "bulk": 1.5,
    "fibre": 1.0,
    "avoid": 1.5,
    "season": 0.5,
    "care": 1.0,
    "surface": 1.0,
    "print": 1.0,
    "width": 0.5,
}
"""How much each factor of a cloth's suit counts, unless the person says otherwise. A house
choice: what a garment hangs and fits by counts double."""
HEAVIEST = 10
"""The most a factor may be made to count."""

LIMITS: dict[str, tuple[int, int]] = {
    "margin_mm": (0, 10_000),
    "margin_percent": (0, 100),
    "shop_step_mm": (1, 10_000),
    "budget": (0, 10_000_000),
    "seed": (0, 2**31 - 1),
}
"""The least and the most of every setting that is a number, in the file and as typed."""
LONGEST_CURRENCY = 5
"""Characters."""


def is_currency(text: str) -> bool:
    """It can stand beside an amount: a sign or a short word."""
    return len(text) <= LONGEST_CURRENCY and text.isprintable() and bool(text.strip())


@dataclass(frozen=True, slots=True, kw_only=True)
class Settings:
    """What the person prefers. Lengths are plain millimetres here, below the units."""

    system: System = System.METRIC
    currency: str = "EUR"
    margin_mm: float = 50.0
    """Spare length below which a fit counts as close; the larger of this and the next rules."""
    margin_percent: float = 3.0
    """The same, as a share of the length needed."""
    shop_step_mm: float | None = None
    """Smallest step the shop cuts by; None: the usual one of the system."""
    budget: Decimal | None = None
    """Most to spend on the buying list; None: no limit."""
    seed: int = 1
    """Seed of every search, so that the same question has the same answer."""
    suit_weights: tuple[tuple[str, float], ...] = ()
    """Factors of `SUIT_WEIGHTS` that count otherwise than usual."""

    @property
    def weights(self) -> dict[str, float]:
        """How much every factor of the suit counts."""
        return SUIT_WEIGHTS | dict(self.suit_weights)

    @property
    def shop_step(self) -> float:
        """Millimetres the shop cuts by."""
        return SHOP_STEPS_MM[self.system] if self.shop_step_mm is None else self.shop_step_mm


def load_settings(path: Path, mend: str = "") -> Settings:
    """The settings in `path`; the defaults if there is no such file.

    Args:
        path: The file.
        mend: Name of a setting about to be changed: if its value is wrong, the usual one counts.

    Raises:
        BadInputError: the file cannot be read, or a setting is unknown or has a wrong value.
    """
    try:
        with path.open("rb") as file:
            found = tomllib.load(file, parse_float=Decimal)
    except FileNotFoundError:
        return Settings()
    except (OSError, ValueError, RecursionError) as error:
        raise BadInputError(
            f"The settings file {path} cannot be read: {error}.",
            "Mend that line, or delete the file to start from the defaults.",
        ) from None
    try:
        return _read(found, mend)
    except BadInputError as error:
        raise BadInputError(f"In the settings file {path}: {error.message}", error.hint) from None


def save_settings(settings: Settings, path: Path) -> None:
    """Write `settings` to `path`, whole or not at all; missing folders are made."""
    lines = [
        f'system = "{settings.system}"',
        f"currency = {json.dumps(settings.currency, ensure_ascii=False)}",
        f"margin_mm = {settings.margin_mm}",
        f"margin_percent = {settings.margin_percent}",
        f"seed = {settings.seed}",
    ]
    if settings.shop_step_mm is not None:
        lines.append(f"shop_step_mm = {settings.shop_step_mm}")
    if settings.budget is not None:
        lines.append(f"budget = {settings.budget:f}")
    if settings.suit_weights:
        lines.append("[suit_weights]")
        lines += [f"{json.dumps(name)} = {weight}" for name, weight in settings.suit_weights]
    make_private(path.parent)
    half_written = path.with_name(path.name + ".new")
    half_written.unlink(missing_ok=True)
    half_written.touch(mode=0o600)
    half_written.write_text("\n".join(lines) + "\n", encoding="utf-8")
    half_written.replace(path)


def _read(found: dict[str, object], mend: str) -> Settings:
    values: dict[str, Any] = {}
    for key, value in found.items():
        if key not in _READ:
            raise BadInputError(
                f"there is no setting called {key!r}.", f"The settings are {', '.join(_READ)}."
            )
        try:
            values[key] = _READ[key](value)
        except BadInputError as error:
            if key != mend:
                back = f'Or go back to the usual one: stash settings {key} "".'
                raise BadInputError(error.message, f"{error.hint} {back}") from None
    return Settings(**values)


def _system(value: object) -> System:
    for system in System:
        if value == system.value:
            return system
    raise BadInputError(f"system = {value!r} is not known.", 'Write "metric" or "imperial".')


def _currency(value: object) -> str:
    if isinstance(value, str) and is_currency(value):
        return value.strip()
    raise BadInputError(f"currency = {value!r} is not a currency.", 'Write a sign such as "EUR".')


def _seed(value: object) -> int:
    low, high = LIMITS["seed"]
    if isinstance(value, int) and not isinstance(value, bool) and low <= value <= high:
        return value
    raise BadInputError(
        f"seed = {value!r} is not a whole number from {low} to {high}.", "Write seed = 1."
    )


def _weights(value: object) -> tuple[tuple[str, float], ...]:
    known = f"The factors are {', '.join(SUIT_WEIGHTS)}."
    if not isinstance(value, dict):
        raise BadInputError(f"suit_weights = {value!r} is not a table.", "Write [suit_weights].")
    for name in value:
        if name not in SUIT_WEIGHTS:
            raise BadInputError(f"there is no factor called {name!r}.", known)
    return tuple(
        (name, float(_number(name, value[name], (0, HEAVIEST))))
        for name in SUIT_WEIGHTS
        if name in value
    )


def _number(key: str, value: object, limits: tuple[int, int]) -> Decimal:
    low, high = limits
    if isinstance(value, (int, Decimal)) and not isinstance(value, bool):
        number = Decimal(value)
        if number.is_finite() and low <= number <= high:
            return number
    say = max(low, min(50, high))
    raise BadInputError(
        f"{key} = {value} is not a number from {low} to {high}.", f"Write {key} = {say}, say."
    )


def _measure(key: str) -> Callable[[object], float]:
    return lambda value: float(_number(key, value, LIMITS[key]))


_READ: dict[str, Callable[[object], Any]] = {
    "system": _system,
    "currency": _currency,
    "margin_mm": _measure("margin_mm"),
    "margin_percent": _measure("margin_percent"),
    "shop_step_mm": _measure("shop_step_mm"),
    "budget": lambda value: _number("budget", value, LIMITS["budget"]),
    "seed": _seed,
    "suit_weights": _weights,
}
"""How the value of each setting is read."""
