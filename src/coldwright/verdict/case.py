"""Everything worked out about one build, as the checks, the judgement and the report read it."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import Literal

import numpy as np

from coldwright.arrays import lanes
from coldwright.build.result import Build
from coldwright.build.translation.plant import Translation
from coldwright.errors import Notice
from coldwright.plant.operation import Operation
from coldwright.units import Kind, System, format_quantity
from coldwright.verdict.alternatives import CHANGES, Change
from coldwright.verdict.figures import (
    CELSIUS,
    CabinetFigures,
    MachineFigures,
    at_lane,
    cabinet_figures,
    machine_figures,
)
from coldwright.verdict.holdover import Melting, melting
from coldwright.verdict.wall_uncertainty import wall_uncertainty

CONTRADICTIONS = ("brine_freezes", "charge_fills_everything", "condenser_too_small")
WORDS = {
    "cycling": "While the target is held",
    "running": "Running without a stop",
    "pull_down": "At the start, everything warm,",
    "hot": "On the hottest day, while the target is held,",
    "hot_running": "On the hottest day, when it never stops,",
}


@dataclass(frozen=True)
class Case:
    """One build worked out: the states, the changes beside it, the hottest day.

    `operation` has lane 0 for the build and one lane for each of `CHANGES`; `hot` is the build on
    the hottest day with the same charge.
    """

    build: Build
    translation: Translation
    operation: Operation
    hot: Operation
    system: System

    @property
    def is_brine(self) -> bool:
        """Whether a brine stands between refrigerant and air."""
        return not self.translation.plant.box.cold_side.source_is_air

    @cached_property
    def melting(self) -> Melting | None:
        """The plant at its holdover's melting point; None for another cold side."""
        found = self.translation
        return melting(found.plant, found.room, np.asarray(self.charge))

    @property
    def run_fraction(self) -> float:
        """Share of the time that the machine runs to hold the target; above 1: it cannot."""
        return at_lane(self.operation.cycling.run_fraction, 0)

    @property
    def hot_run_fraction(self) -> float:
        """The same on the hottest day."""
        return at_lane(self.hot.cycling.run_fraction, 0)

    @property
    def state(self) -> Literal["cycling", "running"]:
        """The state that the box really comes to: held by switching, or never stopping."""
        return "cycling" if self.run_fraction <= 1.0 else "running"

    @property
    def hot_state(self) -> Literal["hot", "hot_running"]:
        """The same on the hottest day."""
        return "hot" if self.hot_run_fraction <= 1.0 else "hot_running"

    @property
    def words(self) -> str:
        """How a sentence about `state` begins."""
        return WORDS[self.state]

    @property
    def hot_room(self) -> float:
        """Room temperature of the hottest day [K]; never under that of this assessment."""
        high = self.build.site.room_temperature_high.value
        return max(high, at_lane(self.translation.room.temperature, 0))

    @property
    def charge(self) -> float:
        """Charge [kg]."""
        return at_lane(self.operation.charge, 0)

    def machine(self, state: str, lane: int = 0) -> MachineFigures:
        """Figures of the machine in one of the states of `WORDS`."""
        machine = self.translation.machine
        room = self.translation.room
        o = self.hot if state.startswith("hot") else self.operation
        balance, source = {
            "cycling": (o.cycling.balance, o.cycling.box.source_temperature),
            "hot": (o.cycling.balance, o.cycling.box.source_temperature),
            "running": (o.running.balance, o.running.box.source_temperature),
            "hot_running": (o.running.balance, o.running.box.source_temperature),
            "pull_down": (o.pull_down, room.temperature),
        }[state]
        return machine_figures(balance, source, machine.voltage, machine.magnetising_current, lane)

    def cabinet(self, state: str, lane: int = 0) -> CabinetFigures:
        """Figures of the cabinet in state `cycling`, `running` or `hot`."""
        point = {
            "cycling": self.operation.cycling,
            "running": self.operation.running,
            "hot": self.hot.cycling,
        }[state]
        return cabinet_figures(self.translation.plant.box.cabinet, point.box, lane)

    @property
    def uncertainties(self) -> dict[str, float]:
        """Relative standard uncertainty of what each change multiplies."""
        found = {change.key: change.usual_uncertainty for change in CHANGES}
        gain = self.operation.cycling.box.gain
        walls = wall_uncertainty(self.build, self.translation.plant.box.cabinet, gain)
        found["insulation"] = max(walls, 0.05)
        found["compressor"] = self.compressor_uncertainty[0]
        return found

    @property
    def compressor_uncertainty(self) -> tuple[float, float]:
        """Relative standard uncertainty of the compressor's flow and power where it works.

        It grows with the distance from the rating (`carried_uncertainty`); without a balance it is
        that at the rating.
        """
        machine, held = self.translation.machine, self.machine(self.state)
        if not held.balanced:
            return machine.fit.standard_uncertainty
        fluid = self.translation.plant.system.refrigerant
        carried = machine.carried(fluid, lanes(held.suction_Pa), lanes(held.discharge_Pa))
        return float(carried.flow), float(carried.power)

    def slope(self, values: np.ndarray[tuple[int], np.dtype[np.float64]], change: Change) -> float:
        """Change of `values[lane]` for a relative change of one of what `change` multiplies."""
        lane = 1 + CHANGES.index(change)
        return float((values[lane] - values[0]) / np.log(change.factor))

    def half_width(self, values: np.ndarray[tuple[int], np.dtype[np.float64]]) -> float:
        """Half-width of the 95 % interval of `values[0]` from all of `uncertainties`."""
        found = self.uncertainties
        terms = [self.slope(values, change) * found[change.key] for change in CHANGES]
        return float(2.0 * np.sqrt(np.sum(np.square(terms))))

    @property
    def run_fraction_half_width(self) -> float:
        """Half-width of the 95 % interval of the run fraction; inf where a lane has none."""
        values = np.asarray(self.operation.cycling.run_fraction, dtype=np.float64)
        return self.half_width(values) if np.all(np.isfinite(values)) else float("inf")

    @property
    def running_air_half_width(self) -> float:
        """Half-width [K] of the 95 % interval of the air temperature without a stop."""
        return self.half_width(np.asarray(self.operation.running.box.air_temperature))

    def written(self, value: float, kind: str) -> str:
        """`value` (SI) as the reader's units write it."""
        return format_quantity(
            value,
            Kind(kind),
            self.system,
            atmosphere_Pa=at_lane(self.translation.room.atmospheric_pressure, 0),
        )

    def temperature(self, celsius: float) -> str:
        """A temperature given in C, as the reader's units write it."""
        return self.written(celsius + CELSIUS, "temperature")

    def difference(self, kelvin: float) -> str:
        """A temperature difference [K], as the reader's units write it."""
        return self.written(kelvin, "temperature_difference")


@dataclass(frozen=True)
class Finding:
    """A notice; where it contradicts the input, the field at fault and what would mend it."""

    notice: Notice
    field: str = ""
    hint: str = ""

    @property
    def contradicts(self) -> bool:
        """Whether it says that entries of the file contradict one another."""
        return self.notice.code in CONTRADICTIONS
