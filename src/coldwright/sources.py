"""Where figures come from: published sources by key, and the registry of correlations.

Each source stands once, in a fragment of ``references/``; a correlation names its source, the
quantity it gives and the range it was fitted on. The documentation tables, the range notices and
the list of sources that an assessment used are all views of these two registries.
"""

from __future__ import annotations

import tomllib
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from typing import ParamSpec, TypeVar

import numpy as np

from coldwright.arrays import FloatOrArray
from coldwright.errors import Notice

P = ParamSpec("P")
R = TypeVar("R")

LABELS = ("read", "from memory", "computed", "common practice, no source")


@dataclass(frozen=True)
class Source:
    """One published source. `label` says how the figures reached us (see `LABELS`)."""

    key: str
    author: str
    year: str
    title: str
    publication: str
    label: str

    @property
    def citation(self) -> str:
        """One line: author (year), title, publication [label]."""
        parts = [f"{self.author} ({self.year})" if self.year else self.author, self.title]
        parts += [self.publication] if self.publication else []
        return f"{', '.join(part for part in parts if part)} [{self.label}]"


@dataclass(frozen=True)
class Correlation:
    """What a correlation gives, where it is from and over which arguments it holds."""

    name: str
    quantity: str
    source: str
    ranges: Mapping[str, tuple[float, float]]
    bias: str


_correlations: dict[str, Correlation] = {}


@cache
def sources() -> Mapping[str, Source]:
    """All sources by key. Raises ValueError when a key stands twice or a label is unknown."""
    found: dict[str, Source] = {}
    for fragment in sorted(files("coldwright").joinpath("references").iterdir(), key=str):
        if not fragment.name.endswith(".toml"):
            continue
        for key, row in tomllib.loads(fragment.read_text(encoding="utf-8")).items():
            if key in found:
                raise ValueError(f"source {key!r} stands twice")
            if row.get("label") not in LABELS:
                raise ValueError(f"source {key!r} has no known label")
            found[key] = Source(
                key=key,
                author=str(row.get("author", "")),
                year=str(row.get("year", "")),
                title=str(row.get("title", "")),
                publication=str(row.get("publication", "")),
                label=str(row["label"]),
            )
    return found


def source(key: str) -> Source:
    """The source called `key`. Raises KeyError when there is none."""
    return sources()[key]


def correlation(
    *, quantity: str, source: str, ranges: Mapping[str, tuple[float, float]], bias: str = ""
) -> Callable[[Callable[P, R]], Callable[P, R]]:
    """Register the decorated function as a correlation and return it unchanged.

    `ranges` maps argument names to the (least, greatest) value of the data it was fitted on, SI.
    """

    def register(function: Callable[P, R]) -> Callable[P, R]:
        name = function.__name__
        _correlations[name] = Correlation(name, quantity, source, dict(ranges), bias)
        return function

    return register


def correlations() -> Mapping[str, Correlation]:
    """All correlations registered by the modules imported so far, by function name."""
    return dict(_correlations)


def range_notices(name: str, **arguments: FloatOrArray) -> tuple[Notice, ...]:
    """Notices for the arguments of correlation `name` that lie outside its fitted range."""
    record = _correlations[name]
    found = []
    for argument, value in arguments.items():
        least, greatest = record.ranges.get(argument, (-np.inf, np.inf))
        values = np.asarray(value, dtype=np.float64)
        outside = (values < least) | (values > greatest)
        if np.any(outside):
            worst = float(np.ravel(values)[int(np.argmax(np.ravel(outside)))])
            found.append(
                Notice(
                    code="correlation_range",
                    severity="info",
                    text=(
                        f"{record.quantity}: {argument.replace('_', ' ')} {worst:.4g} lies outside "
                        f"the fitted range {least:.4g} to {greatest:.4g}; "
                        "the value is extrapolated."
                    ),
                    source=record.source,
                )
            )
    return tuple(found)
