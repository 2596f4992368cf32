"""A stand-in for the helper process of the careful search."""

from __future__ import annotations

import subprocess
import sys
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    import pytest


def replace_helper(monkeypatch: pytest.MonkeyPatch, script: str) -> None:
    """Let the helper process run these lines of Python instead of its own."""
    real = subprocess.Popen

    def other(_: list[str], **options: Any) -> subprocess.Popen[str]:
        return real([sys.executable, "-c", script], **options)

    monkeypatch.setattr(subprocess, "Popen", other)
