"""The compressor as a part: by rated points, a map, a class or a plate, always through one fit."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from coldwright.arrays import Array, lanes
from coldwright.build.result import Build
from coldwright.build.schema.machine import Compressor as CompressorSection
from coldwright.build.translation.rated_points import Sheet, map_current, must_work, sheet_of
from coldwright.fluids.refrigerants import Refrigerant, refrigerant
from coldwright.parts.compressor import Compressor, at_speed
from coldwright.parts.compressor_carry import Carried, carried_uncertainty
from coldwright.parts.compressor_fit import CompressorFit, RatedPoints
from coldwright.parts.compressor_shell import shell_conductance
from coldwright.parts.compressor_typical import (
    SLIP,
    UNKNOWN_POWER,
    Known,
    class_power,
    fit_class,
    nearest_class,
)
from coldwright.parts.motor import (
    magnetising_at,
    magnetising_current,
    magnetising_share,
    plate_power,
)
from coldwright.shop.compressor_classes import CompressorClass, compressor_class


@dataclass(frozen=True)
class Machine:
    """A fitted compressor with its motor."""

    fit: CompressorFit
    machine_class: CompressorClass
    magnetising_current: Array  # [A] at the running voltage and frequency
    magnetising_from: str  # where it is from
    voltage: Array  # [V] running
    rated: RatedPoints
    rated_on: Refrigerant
    speed_ratio: Array  # running speed over the rated one
    direct_current: bool

    @property
    def compressor(self) -> Compressor:
        """The fitted compressor at the speed at which it runs here."""
        fitted = self.fit.compressor
        return at_speed(fitted, fitted.speed * self.speed_ratio)

    @property
    def misfit(self) -> float:
        """Greatest relative distance of the fit from a rated flow or power."""
        errors = np.concatenate([self.fit.flow_error, self.fit.power_error])
        return float(np.nanmax(np.abs(errors)))

    def carried(self, fluid: Refrigerant, suction: Array, discharge: Array) -> Carried:
        """How sure flow and power are at these pressures [Pa] on `fluid`."""
        return carried_uncertainty(
            self.fit, self.rated, self.rated_on, fluid, suction, discharge, self.speed_ratio
        )


def machine_of(build: Build) -> Machine:
    """The machine of `build`: the class's typical figures, pulled to what its sheet states."""
    section = build.compressor
    stated = _stated(section)
    points = stated.sheet.points
    must_work(build, points)
    current, origin = _magnetising(section, stated.row, points)
    mains, ratio = _running(build, stated.rated_speed)
    dc = section.supply == "dc"
    running = magnetising_at(current, mains / section.voltage.value, ratio)
    return Machine(
        _fit(section),
        stated.row,
        lanes(0.0) if dc else running,
        "none: direct current" if dc else origin,
        lanes(mains),
        points,
        stated.rated_on,
        lanes(ratio),
        dc,
    )


@dataclass(frozen=True)
class _Stated:
    """What the compressor's own section says, as the fit takes it."""

    row: CompressorClass
    sheet: Sheet
    rated_on: Refrigerant
    rated_speed: float  # [1/s]


# Kept, since most edits of a build leave its compressor alone.
@lru_cache(maxsize=16)
def _stated(section: CompressorSection) -> _Stated:
    rated_on = refrigerant(section.rated_refrigerant)
    rated_speed = _rated_speed(section)
    row = _class_of(section, rated_on, rated_speed)
    swept = section.displacement.value if section.displacement else None
    class_swept = swept or _class_swept(section, row, rated_on, rated_speed)
    sheet = sheet_of(section, rated_on, row, class_swept, rated_speed)
    return _Stated(row, sheet, rated_on, rated_speed)


@lru_cache(maxsize=16)
def _fit(section: CompressorSection) -> CompressorFit:
    stated = _stated(section)
    sheet, known = stated.sheet, _known(section, stated.rated_speed)
    return fit_class(stated.row, stated.rated_on, sheet.points, known, sheet.scatter, sheet.common)


def _rated_speed(section: CompressorSection) -> float:
    """Turns a second at the rating: stated, or from the frequency less the slip."""
    if section.rated_speed is not None:
        return section.rated_speed.value
    if section.supply == "dc" and section.speed is not None:
        return section.speed.value
    return section.frequency.value * (1.0 - SLIP)


def _running(build: Build, rated_speed: float) -> tuple[float, float]:
    """Voltage, and running speed over the rated one."""
    section, site = build.compressor, build.site
    if section.supply == "dc":
        running = section.speed.value if section.speed is not None else rated_speed
        return section.voltage.value, running / rated_speed
    turns = site.mains_frequency.value / section.frequency.value
    return site.mains_voltage.value, turns


def _known(section: CompressorSection, rated_speed: float) -> Known:
    """What the section states beside rated points; the shell's conductance by its size."""
    swept, shell = section.displacement, None
    if section.shell_diameter is not None and section.shell_height is not None:
        shell = shell_conductance(section.shell_diameter.value, section.shell_height.value)
    return Known(
        rated_speed,
        section.shell_free_volume.value,
        None if swept is None else swept.value,
        0.0 if swept is None else swept.standard_uncertainty / swept.value,
        None if shell is None else float(shell),
    )


def _plate_power(section: CompressorSection) -> float | None:
    """Power [W] that a donor's plate stands for."""
    plate = section.nameplate
    if plate is None:
        return None
    if plate.power is not None:
        return plate.power.value
    if plate.current is None:
        return None
    return float(plate_power(plate.current.value, section.voltage.value))


def _class_of(section: CompressorSection, fluid: Refrigerant, speed: float) -> CompressorClass:
    """The class it names, or the one nearest in displacement or in the plate's power."""
    if section.class_name:
        return compressor_class(section.class_name)
    swept = section.displacement.value if section.displacement else None
    application = section.machine_class or "LBP"
    return nearest_class(application, fluid, speed, swept=swept, power=_plate_power(section))


def _class_swept(
    section: CompressorSection, row: CompressorClass, fluid: Refrigerant, speed: float
) -> float:
    """Displacement [m3] of the class, or what gives the power of the plate."""
    swept, power = row.swept_for(fluid.name), _plate_power(section)
    if power is None:
        return swept
    return swept * power / class_power(row, fluid, speed)


def _magnetising(
    section: CompressorSection, row: CompressorClass, points: RatedPoints
) -> tuple[float, str]:
    """Magnetising current [A] from a reading, a rated current, the plate or the class."""
    if section.readings:
        read = [
            float(magnetising_current(r.power.value, r.voltage.value, r.current.value))
            for r in section.readings
        ]
        return float(np.mean(read)), "bench reading"
    volts = section.voltage.value
    for point in section.rated_points:
        if point.current is not None and point.power is not None:
            found_one = magnetising_current(point.power.value, volts, point.current.value)
            return float(found_one), "rated current"
    if section.map is not None:
        current = map_current(section.map, section.machine_class or "LBP")
        if current is not None:
            found = magnetising_current(points.power, volts, current)
            return float(np.mean(found)), "rated current"
    plate = section.nameplate
    if plate is not None and plate.power is not None and plate.current is not None:
        found_one = magnetising_current(plate.power.value, volts, plate.current.value)
        return float(found_one), "nameplate"
    power = float(points.power[0]) if np.isfinite(points.power[0]) else UNKNOWN_POWER
    return float(magnetising_share(power, volts, row.magnetising_share.value)), "class"
