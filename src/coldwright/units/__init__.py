"""Text to SI and back: what a maker writes, with its uncertainty, and what a maker reads."""

from coldwright.units.atmosphere import atmosphere_at
from coldwright.units.display import Scale, System, format_estimate, format_quantity, scale_of
from coldwright.units.kinds import FACTS, Kind
from coldwright.units.quantity import Quantity, parse_quantity

__all__ = [
    "FACTS",
    "Kind",
    "Quantity",
    "Scale",
    "System",
    "atmosphere_at",
    "format_estimate",
    "format_quantity",
    "parse_quantity",
    "scale_of",
]
