from __future__ import annotations

import ast
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
FILES = sorted(
    path
    for folder in ("stash", "tests", "migrations")
    for path in (ROOT / folder).rglob("*.py")
    if "__pycache__" not in path.parts
)
FILE_LINES, FUNCTION_LINES, CLASS_LINES = 350, 60, 250


def long_parts(tree: ast.AST) -> list[str]:
    """Functions and classes that are longer than they may be."""
    found = []
    for node in ast.walk(tree):
        if isinstance(node, (ast.FunctionDef, ast.AsyncFunctionDef)):
            most = FUNCTION_LINES
        elif isinstance(node, ast.ClassDef):
            most = CLASS_LINES
        else:
            continue
        length = (node.end_lineno or node.lineno) - node.lineno + 1
        if length > most:
            found.append(f"{node.name}: {length} lines")
    return found


def test_there_is_something_to_measure() -> None:
    assert len(FILES) > 100
    assert long_parts(ast.parse("def f():\n" + "    x = 1\n" * FUNCTION_LINES)) == ["f: 61 lines"]


@pytest.mark.parametrize("path", FILES, ids=lambda path: str(path.relative_to(ROOT)))
def test_files_functions_and_classes_stay_small(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    assert len(text.splitlines()) <= FILE_LINES
    assert long_parts(ast.parse(text)) == []
    if path.name == "__init__.py":
        assert text == "", "an __init__.py holds no code: every import would pay for it"


def test_imports_point_downwards() -> None:
    script = Path(sys.executable).with_name("lint-imports")
    done = subprocess.run([script, "--no-cache"], cwd=ROOT, capture_output=True, text=True)
    assert done.returncode == 0, done.stdout


def test_only_one_place_in_the_faces_knows_the_other_face() -> None:
    knowing = [
        path.relative_to(ROOT).as_posix()
        for path in FILES
        if "stash/cli" in path.as_posix() and "stash.tui" in path.read_text(encoding="utf-8")
    ]
    assert knowing == ["stash/cli/commands/app.py"]
