"""The command line: `coldwright assess`, `compare`, `new`, `calc`, `day` and `expect`."""

from coldwright.cli import day as _day  # registers its command
from coldwright.cli.app import main

__all__ = ["main"]

del _day
