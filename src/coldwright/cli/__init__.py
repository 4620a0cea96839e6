"""The command line: `coldwright assess`, `compare` and `new`."""

from coldwright.cli.app import main

__all__ = ["main"]
