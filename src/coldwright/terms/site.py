"""Terms of where the box stands and what it must do."""

from __future__ import annotations

from coldwright.terms.glossary import Term
from coldwright.units import Kind

_ROOM_LEAST, _ROOM_GREATEST = 263.15, 328.15

TERMS = (
    Term(
        "site.room_temperature",
        "Room temperature",
        "Temperature of the air in the room where the box stands, on the day it is judged for.",
        Kind.temperature,
        least=_ROOM_LEAST,
        greatest=_ROOM_GREATEST,
        usual_uncertainty=1.0,
    ),
    Term(
        "site.room_temperature_low",
        "Lowest room temperature",
        "The coolest the room gets while the box is in use.",
        Kind.temperature,
        least=_ROOM_LEAST,
        greatest=_ROOM_GREATEST,
        usual_uncertainty=1.0,
    ),
    Term(
        "site.room_temperature_high",
        "Highest room temperature",
        "The warmest the room gets while the box is in use.",
        Kind.temperature,
        least=_ROOM_LEAST,
        greatest=_ROOM_GREATEST,
        usual_uncertainty=1.0,
    ),
    Term(
        "site.relative_humidity",
        "Relative humidity of the room",
        "Water vapour in the room's air as a share of what it could hold at room temperature.",
        Kind.ratio,
        least=0.0,
        greatest=1.0,
        usual_uncertainty=0.05,
    ),
    Term(
        "site.altitude",
        "Altitude",
        "Height above sea level; it sets the atmospheric pressure that gauges read from.",
        Kind.length,
        least=-430.0,
        greatest=5000.0,
        usual_uncertainty=20.0,
    ),
    Term(
        "site.room_volume",
        "Room volume",
        "Free volume of the room; a leaked charge spreads in it.",
        Kind.volume,
        least=0.0,
        greatest=1.0e5,
        least_excluded=True,
        usual_relative_uncertainty=0.05,
    ),
    Term(
        "site.mains_voltage",
        "Mains voltage",
        "Voltage at the socket.",
        Kind.voltage,
        least=9.0,
        greatest=480.0,
        usual_relative_uncertainty=0.02,
    ),
    Term(
        "site.mains_frequency",
        "Mains frequency",
        "Frequency at the socket.",
        Kind.frequency,
        least=40.0,
        greatest=70.0,
    ),
    Term(
        "targets.air_temperature",
        "Target air temperature",
        "Mean temperature of the storage air that the box must hold.",
        Kind.temperature,
        least=243.15,
        greatest=298.15,
    ),
    Term(
        "targets.highest_run_fraction",
        "Highest run fraction",
        "The greatest share of the time that the compressor may run.",
        Kind.ratio,
        least=0.0,
        greatest=1.0,
        least_excluded=True,
    ),
)
