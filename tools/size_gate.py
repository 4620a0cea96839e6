"""Fail when a file or function of the package is long without a listed reason.

A long file holds more than one idea; a long function cannot be read at once. Tests are not gated:
a published table is as long as it is.
"""

from __future__ import annotations

import ast
import sys
from pathlib import Path

LONGEST_FILE = 400
LONGEST_FUNCTION = 60
PAGES = ("html", "css", "js")
SOURCE = Path(__file__).resolve().parent.parent / "src"

# What may be longer, and why: `package/file.py` or `package/file.py:Class.function`.
REASONS: dict[str, str] = {}


def functions(tree: ast.Module) -> list[tuple[str, int]]:
    """Every function of a module with its dotted name and its number of lines, decorators too."""
    found: list[tuple[str, int]] = []

    def walk(node: ast.AST, prefix: str) -> None:
        for child in ast.iter_child_nodes(node):
            if not isinstance(child, ast.FunctionDef | ast.AsyncFunctionDef | ast.ClassDef):
                walk(child, prefix)
                continue
            name = f"{prefix}{child.name}"
            if not isinstance(child, ast.ClassDef):
                first = min([child.lineno, *(part.lineno for part in child.decorator_list)])
                found.append((name, (child.end_lineno or child.lineno) - first + 1))
            walk(child, f"{name}.")

    walk(tree, "")
    return found


def too_long_pages(root: Path) -> dict[str, str]:
    """Templates, styles and scripts under `root` that are over the limit of a file."""
    found = {}
    for path in sorted(each for ending in PAGES for each in root.rglob(f"*.{ending}")):
        lines = len(path.read_text(encoding="utf-8").splitlines())
        if lines > LONGEST_FILE:
            found[path.relative_to(root).as_posix()] = f"{lines} lines, at most {LONGEST_FILE}"
    return found


def too_long(root: Path) -> dict[str, str]:
    """What under `root` is over a limit: its place, and how long it is."""
    found: dict[str, str] = {}
    for path in sorted(root.rglob("*.py")):
        place = path.relative_to(root).as_posix()
        text = path.read_text(encoding="utf-8")
        lines = len(text.splitlines())
        if lines > LONGEST_FILE:
            found[place] = f"{lines} lines, at most {LONGEST_FILE}"
        for name, length in functions(ast.parse(text, filename=str(path))):
            if length > LONGEST_FUNCTION:
                found[f"{place}:{name}"] = f"{length} lines, at most {LONGEST_FUNCTION}"
    return found


def main() -> int:
    """Print every fault; 0 when there is none."""
    found = {**too_long(SOURCE), **too_long_pages(SOURCE)}
    faults = [f"{place}: {size}" for place, size in found.items() if place not in REASONS]
    faults += [
        f"{place}: listed, but no longer too long" for place in REASONS if place not in found
    ]
    for fault in faults:
        print(fault, file=sys.stderr)
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
