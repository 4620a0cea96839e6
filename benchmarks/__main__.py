"""Run all benchmarks and print a table: what, time, and the ratio to its reference."""

from __future__ import annotations

from rich.console import Console
from rich.table import Table

from benchmarks.balance import balance_rows
from benchmarks.clock import clock_rows
from benchmarks.imports import import_rows
from benchmarks.properties import property_rows
from benchmarks.web import web_rows


def main() -> None:
    """Print the table."""
    table = Table("what", "time", "reference", "time of it", "ratio", box=None)
    for rows in (property_rows, balance_rows, clock_rows, import_rows, web_rows):
        for row in rows():
            table.add_row(*row)
    Console(width=110).print(table)


main()
