"""Bench answers: `coldwright calc saturation`, `brine`, `standing` and others."""

from coldwright.cli.calc.app import calc_app

__all__ = ["calc_app"]
