"""The command line: `assess`, `compare`, `new`, `calc`, `day`, `expect` and `thermostat`."""

from coldwright.cli import day, expect, thermostat  # each registers its command
from coldwright.cli.app import main

__all__ = ["day", "expect", "main", "thermostat"]
