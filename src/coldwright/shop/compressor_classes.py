"""Typical small hermetic compressors, for a maker who knows only the class and the nominal size.

A class is an application (LBP, MBP, HBP: low, medium and high evaporating temperature) and a
nominal horsepower. The figures are means over makes and decades with wide uncertainties: a rating
or one reading of power always beats them.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import Any

from coldwright.shop.rows import find, table

# Displacement of a machine made for a gas by that of an R134a machine of the same nominal size:
# common practice, no source, near the inverse of the volumetric capacities.
DISPLACEMENT_SHARE = {"R600a": 1.8, "R290": 0.63, "R1270": 0.55, "R22": 0.63}


@dataclass(frozen=True)
class Estimate:
    """A typical value (SI) and its relative standard uncertainty."""

    value: float
    relative_uncertainty: float


@dataclass(frozen=True)
class CompressorClass:
    """One nominal size in one application.

    Volumetric efficiency is `volumetric_factor` less re-expansion from `clearance` (a share of the
    swept volume). `overall_efficiency` is isentropic power by electrical input, suction gas as it
    enters the shell; over `electrical_efficiency` (the motor's) it gives the compression's own.
    `magnetising_share` is the magnetising current by the running current.
    """

    name: str
    application: str
    size: str
    displacement: Estimate  # m3, for R134a, R152a, R12
    clearance: Estimate
    volumetric_factor: Estimate
    overall_efficiency: Estimate
    electrical_efficiency: Estimate
    magnetising_share: Estimate
    locked_rotor_ratio: Estimate  # locked-rotor current by running current
    shell_conductance: Estimate  # W/K, still air
    shell_gas_volume: Estimate  # m3, free of parts and oil
    shell_mass: Estimate  # kg, with motor and pump
    oil_volume: Estimate  # m3
    evaporating_range: tuple[float, float]  # K
    source: str

    def swept_for(self, refrigerant: str) -> float:
        """Displacement [m3] of this class made for `refrigerant`: thin gas takes a larger one."""
        return self.displacement.value * DISPLACEMENT_SHARE.get(refrigerant, 1.0)

    @property
    def isentropic_efficiency(self) -> float:
        """Isentropic power by shaft power [-]: the pump without its motor."""
        return self.overall_efficiency.value / self.electrical_efficiency.value


def _made(name: str, application: str, size: str, data: dict[str, Any]) -> CompressorClass:
    by_size, by_use = data["size"][size], data["application"][application]
    spread = data["uncertainty"]

    def estimate(key: str, value: float) -> Estimate:
        return Estimate(value, spread[key])

    return CompressorClass(
        name=name,
        application=application,
        size=size,
        displacement=estimate(
            "displacement", by_size["displacement_LBP_cm3"] * by_use["displacement_share"] * 1e-6
        ),
        clearance=estimate("clearance", by_use["clearance"]),
        volumetric_factor=estimate("volumetric_factor", by_use["volumetric_factor"]),
        overall_efficiency=estimate("overall_efficiency", by_size["overall_efficiency"]),
        electrical_efficiency=estimate("electrical_efficiency", by_size["electrical_efficiency"]),
        magnetising_share=estimate("magnetising_share", by_size["magnetising_share"]),
        locked_rotor_ratio=estimate("locked_rotor_ratio", by_use["locked_rotor_ratio"]),
        shell_conductance=estimate("shell_conductance", by_size["shell_conductance"]),
        shell_gas_volume=estimate("shell_gas_volume", by_size["shell_gas_volume_L"] * 1e-3),
        shell_mass=estimate("shell_mass", by_size["shell_mass"]),
        oil_volume=estimate("oil_volume", by_size["oil_volume_mL"] * 1e-6),
        evaporating_range=(
            by_use["least_evaporating_C"] + 273.15,
            by_use["greatest_evaporating_C"] + 273.15,
        ),
        source=by_size["source"],
    )


@cache
def _classes() -> dict[str, CompressorClass]:
    data = dict(table("compressor_classes.toml"))
    return {
        f"{application} {size}": _made(f"{application} {size}", application, size, data)
        for application in data["application"]
        for size in data["size"]
    }


def compressor_class_names() -> tuple[str, ...]:
    """Names of the classes, such as `LBP 1/8 hp`."""
    return tuple(_classes())


def compressor_class(name: str) -> CompressorClass:
    """Return the class `name` (`LBP 1/8 hp`, also `1/8 hp LBP`). Raises InputError if unknown."""
    words = name.split()
    applications = {row.application for row in _classes().values()}
    turned = [word for word in words if word.upper() in applications]
    turned += [word for word in words if word.upper() not in applications]
    return find(_classes(), " ".join(turned), what="Compressor class", field="compressor.class")
