"""What a pattern recommends and advises against, set against a cloth."""

from __future__ import annotations

import pytest
from pairing_kit import asking, cloth, fibres, pattern

from stash.config import System
from stash.garment.pattern import Role
from stash.pairing.case import case_for
from stash.pairing.suit import reasons_for


@pytest.mark.parametrize(
    ("asked", "factor_name", "good", "poor"),
    # Printed on envelopes as "suggested fabrics" and "not suitable for" (common practice).
    [
        ({"fibres": ("linen", "cotton")}, "fibre", "linen 70 cotton 30", "wool 100"),
        ({"avoid": ("wools", "velvet")}, "avoid", "linen 100", "wool 100"),
    ],
)
def test_what_a_pattern_recommends_and_advises_against(
    asked: dict[str, tuple[str, ...]], factor_name: str, good: str, poor: str
) -> None:
    wanted = pattern(asks=asking(**asked))
    marks = []
    for text in (good, poor):
        case = case_for(cloth(fibres=fibres(text)), wanted, Role.MAIN, System.METRIC)
        (found,) = [reason for reason in reasons_for(case) if reason.factor == factor_name]
        marks.append(found.mark)
    assert marks[0] == 1.0
    assert marks[1] is not None
    assert marks[1] <= 0.5
