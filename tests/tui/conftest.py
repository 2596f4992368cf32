from __future__ import annotations

import pytest
from textual.widgets import Input


@pytest.fixture(autouse=True)
def _no_blink(monkeypatch: pytest.MonkeyPatch) -> None:
    """A cursor that blinks by the clock would make two equal screens differ."""
    monkeypatch.setattr(Input, "_toggle_cursor", lambda _: None)
