"""Who reads: the system of units, the box's name and the air pressure that its gauges stand in."""

from __future__ import annotations

from dataclasses import dataclass

from coldwright.build.result import Build
from coldwright.units import Kind, Scale, System, format_quantity, scale_of
from coldwright.verdict.case import Case
from coldwright.verdict.figures import at_lane

# Marks of a logarithmic pressure axis: kPa absolute, and what a shop gauge shows.
KPA_MARKS = (10.0, 20.0, 50.0, 100.0, 200.0, 500.0, 1000.0, 2000.0, 5000.0)
VACUUM_MARKS_INHG = (25.0, 20.0, 10.0)
PSIG_MARKS = (0.0, 10.0, 20.0, 50.0, 100.0, 200.0, 300.0, 500.0)
PA_PER_INHG, PA_PER_PSI = 3386.389, 6894.757


@dataclass(frozen=True)
class Reader:
    """Writes and scales figures for one reader."""

    system: System
    atmosphere_Pa: float
    box: str  # name and revision of the build

    @classmethod
    def of(cls, build: Build, system: System, atmosphere_Pa: float) -> Reader:
        """The reader of one build's charts."""
        revision = f"revision {build.revision}" if build.revision else "as built"
        return cls(system, atmosphere_Pa, f"{build.name}, {revision}")

    @classmethod
    def of_case(cls, case: Case) -> Reader:
        """The reader of an assessed build's charts."""
        pressure = at_lane(case.translation.room.atmospheric_pressure, 0)
        return cls.of(case.build, case.system, pressure)

    def written(self, value: float, kind: Kind) -> str:
        """`value` [SI] with its unit."""
        return format_quantity(value, kind, self.system, atmosphere_Pa=self.atmosphere_Pa)

    def scale(self, kind: Kind, greatest: float = 1.0) -> Scale:
        """The unit of an axis that reaches to `greatest` [SI]."""
        return scale_of(kind, self.system, greatest)

    def pressure_marks(self, least: float, greatest: float) -> dict[float, str]:
        """Marks of a pressure axis between two pressures [Pa]: place on its scale, and label.

        In shop units the label is what a gauge shows while the place is absolute.
        """
        if self.system == "si":
            marks = {1e3 * each: f"{each:.0f}" for each in KPA_MARKS}
        else:
            air = self.atmosphere_Pa
            marks = {air - PA_PER_INHG * each: f"{each:.0f} inHg vac" for each in VACUUM_MARKS_INHG}
            marks |= {air + PA_PER_PSI * each: f"{each:.0f} psig" for each in PSIG_MARKS}
        scale = self.scale(Kind.absolute_pressure, greatest)
        return {
            round(scale.of(pressure), 4): label
            for pressure, label in marks.items()
            if least <= pressure <= greatest
        }
