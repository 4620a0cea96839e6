"""A chart as everything that shows one takes it: title, caption, table and specification."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

Cell = float | str | None


@dataclass(frozen=True)
class Column:
    """One column of a figure's table."""

    key: str
    label: str
    unit: str = ""  # empty: text, or a plain number

    @property
    def heading(self) -> str:
        """Label with its unit."""
        return f"{self.label}, {self.unit}" if self.unit else self.label


@dataclass(frozen=True)
class Figure:
    """One chart.

    `caption` says in sentences what one sees, with its numbers. `rows` are the figures drawn, in
    the reader's units as `columns` name them. `spec` is a Vega-Lite specification that holds its
    own data and asks for nothing outside.
    """

    key: str
    title: str
    subtitle: str
    caption: str
    columns: tuple[Column, ...]
    rows: tuple[Mapping[str, Cell], ...]
    spec: Mapping[str, Any]


@dataclass(frozen=True)
class Undrawn:
    """Why there is nothing to draw: a build without a balance is a result, no fault."""

    reason: str
    because: str = "there is no balance"
