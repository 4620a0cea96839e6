"""Where the box stands and what it is for."""

from __future__ import annotations

from typing import Annotated

from coldwright.build.schema.fields import Section, Text, known
from coldwright.units import Quantity, atmosphere_at


class Site(Section):
    """The room and the mains."""

    room_temperature: Annotated[Quantity, known("site.room_temperature", "21 °C")]
    room_temperature_low: Annotated[Quantity, known("site.room_temperature_low", "16 °C")]
    room_temperature_high: Annotated[Quantity, known("site.room_temperature_high", "30 °C")]
    relative_humidity: Annotated[Quantity, known("site.relative_humidity", "50 %")]
    altitude: Annotated[Quantity, known("site.altitude", "120 m")]
    room_volume: Annotated[Quantity, known("site.room_volume", "30 m3")]
    mains_voltage: Annotated[Quantity, known("site.mains_voltage", "230 V")]
    mains_frequency: Annotated[Quantity, known("site.mains_frequency", "50 Hz")]

    @property
    def atmospheric_pressure(self) -> float:
        """The standard atmosphere at the altitude [Pa]."""
        return float(atmosphere_at(self.altitude.value))


class Targets(Section):
    """What the maker wants."""

    air_temperature: Annotated[Quantity, known("targets.air_temperature", "2 °C")]
    use: Annotated[str, Text("butter and cream", "What will be kept in it.")]
    highest_run_fraction: Annotated[Quantity, known("targets.highest_run_fraction", "60 %")]
