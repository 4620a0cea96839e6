"""What the drawing writes of an assessment: the report's figures of the state it comes to."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from coldwright.build.result import Build
from coldwright.units import Kind, System, format_quantity

ZERO_C = 273.15
SECONDS_PER_HOUR = 3600.0


@dataclass(frozen=True)
class Readings:
    """Reader of one report in one system of units; every figure may be missing."""

    build: Build
    figures: Mapping[str, Any] | None
    units: System

    @property
    def known(self) -> bool:
        """Whether anything is worked out."""
        return self.figures is not None

    @property
    def cycling(self) -> bool:
        """Whether the box holds its target by stopping and starting."""
        return bool(self.get("cabinet", "state") == "cycling")

    def get(self, *keys: str) -> Any:  # noqa: ANN401 (any JSON value)
        """The value at `keys`, None where a step is missing."""
        found: Any = self.figures
        for key in keys:
            if not isinstance(found, Mapping):
                return None
            found = found.get(key)
        return found

    def machine(self, key: str) -> Any:  # noqa: ANN401 (as above)
        """A figure of the machine while it runs, in the state that the box takes."""
        return self.get("cycling", "while_on", key) if self.cycling else self.get("running", key)

    def cabinet(self, key: str) -> float | None:
        """A figure of the cabinet; nothing is shown of a box without a balance."""
        if self.machine("reason") not in (None, "balanced"):
            return None
        found = self.get("cabinet", key)
        return None if found is None else float(found)

    def write(self, value: float | None, kind: Kind, digits: int | None = None) -> str:
        """`value` [SI] with its unit that no line break parts from it; empty without a value."""
        if value is None:
            return ""
        air = self.build.site.atmospheric_pressure
        text = format_quantity(value, kind, self.units, atmosphere_Pa=air, digits=digits)
        return text.replace(" ", "\u00a0").replace("-", "\u2212")

    def degrees(self, celsius: float | None) -> str:
        """A temperature [°C]."""
        return self.write(None if celsius is None else celsius + ZERO_C, Kind.temperature)

    def difference(self, kelvin: float | None) -> str:
        """A difference of temperatures [K]."""
        return self.write(kelvin, Kind.temperature_difference)

    def run(self, metres: float) -> str:
        """A length of tube or seal [m]: metres, or feet."""
        shown, unit = (metres, "m") if self.units == "si" else (metres / 0.3048, "ft")
        digits = 2 if shown < 1.0 else 1
        text = f"{shown:.{digits}f}".rstrip("0").rstrip(".")
        return f"{text}\u00a0{unit}"

    def length(self, metres: float) -> str:
        """A length [m]: whole millimetres, or inches."""
        whole = self.units == "si" and 0.01 <= metres < 2.0
        return self.write(metres, Kind.length, 0 if whole else None)
