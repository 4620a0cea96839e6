"""One figure of a report with what lies behind it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from coldwright.verdict.explain import explanation_of, inputs_of, value_at
from coldwright.verdict.explanation import Explanation
from coldwright.verdict.report import citation_of


def explained(data: Mapping[str, Any], path: str) -> dict[str, Any]:
    """One figure with its formula, the figures that go into it, and its sources."""
    return laid_open(data, path, explanation_of(path), inputs_of(path))


def laid_open(
    data: Mapping[str, Any], path: str, entry: Explanation, inputs: Sequence[str]
) -> dict[str, Any]:
    """A figure of any report with its `entry` and the paths of its `inputs`."""
    return {
        "field": path,
        "value": value_at(data, path),
        "formula": entry.formula,
        "inputs": {name: value_at(data, name) for name in inputs},
        "sources": [citation_of(key) for key in entry.sources],
    }
