"""The command line: `assess`, `compare`, `new`, `calc`, `day`, `expect`, `thermostat`, `open`."""

from coldwright.cli import day, expect, open, thermostat
from coldwright.cli.app import main

__all__ = ["day", "expect", "main", "open", "thermostat"]
