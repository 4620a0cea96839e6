"""One figure of a report with what lies behind it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from coldwright.verdict.explain import explanation_of, inputs_of, value_at
from coldwright.verdict.report import citation_of


def explained(data: Mapping[str, Any], path: str) -> dict[str, Any]:
    """One figure with its formula, the figures that go into it, and its sources."""
    entry = explanation_of(path)
    return {
        "field": path,
        "value": value_at(data, path),
        "formula": entry.formula,
        "inputs": {name: value_at(data, name) for name in inputs_of(path)},
        "sources": [citation_of(key) for key in entry.sources],
    }
