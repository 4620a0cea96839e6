"""What is known of each oil with each refrigerant: the interaction parameter and how it was got.

The interaction parameter of Flory and Huggins is a + b (1000/T - 1000/313.15). Rows marked with a
measured source were fitted by least squares of ln(pressure) to the isotherms published there,
pooled over the oils that they measured, dilute to 45 % by mass; one point of R134a in
alkylbenzene (187 kPa, 40 °C) was left out as a misprint, its neighbours being four times as high.
The others are estimates from the measured neighbours (polarity, chain length) and carry a wide
uncertainty.
"""

from __future__ import annotations

from dataclasses import dataclass

DENSITY_REFERENCE = 313.15  # K


@dataclass(frozen=True)
class OilKind:
    """A family of oils as a small hermetic compressor of ISO grade 10 to 32 holds them."""

    name: str
    density_at_0C: float  # kg/m3
    density_slope: float  # kg/(m3 K), lost by each kelvin
    density_uncertainty: float  # relative standard, over makes and grades
    molar_mass: float  # kg/mol, mean
    source: str

    @property
    def reference_density(self) -> float:
        """Density [kg/m3] at 40 °C, where the volume ratios of the solution are taken."""
        return self.density_at_0C - 40.0 * self.density_slope


KINDS = {
    kind.name: kind
    for kind in (
        OilKind("mineral", 891.1, 0.6, 0.02, 0.325, "fluids_grebner_crawford_1993"),
        OilKind("alkylbenzene", 879.0, 0.67, 0.015, 0.340, "fluids_from_memory"),
        OilKind("ester", 993.9, 0.757, 0.025, 0.550, "fluids_burton_1999"),
    )
}


@dataclass(frozen=True)
class Solute:
    """What the solution asks of a refrigerant: molar mass and liquid density at 40 °C."""

    molar_mass: float  # kg/mol
    liquid_density: float  # kg/m3


# Computed with CoolProp 8.0.0 at 40 °C.
SOLUTES = {
    "R12": Solute(0.12091, 1254.3),
    "R22": Solute(0.08647, 1128.5),
    "R134a": Solute(0.10203, 1146.7),
    "R152a": Solute(0.06605, 859.7),
    "R600a": Solute(0.05812, 531.2),
    "R290": Solute(0.04410, 467.5),
    "R1270": Solute(0.04208, 478.6),
    "R1234yf": Solute(0.11404, 1033.6),
}

FULL = "mixes fully"
PART = "mixes in part; two liquids form when cold"
HARDLY = "hardly mixes; oil stays out in the system instead of returning"


@dataclass(frozen=True)
class OilPair:
    """One oil with one refrigerant."""

    oil: str
    refrigerant: str
    interaction: float  # a [-], at 40 °C
    interaction_slope: float  # b [kK]
    relative_uncertainty: float  # standard, of the dissolved mass fraction
    suits: bool  # whether the trade fills this oil with this refrigerant
    miscibility: str
    source: str


_GUESS = "fluids_oil_estimate"

_ROWS = (
    ("mineral", "R12", 0.808, 0.135, 0.10, True, FULL, "fluids_grebner_crawford_1993"),
    ("mineral", "R22", 0.95, 0.30, 0.30, True, PART, _GUESS),
    ("mineral", "R134a", 2.10, 1.40, 0.30, False, HARDLY, "fluids_yokozeki_2001"),
    ("mineral", "R152a", 1.90, 1.20, 0.45, False, HARDLY, _GUESS),
    ("mineral", "R600a", 0.35, 0.25, 0.15, True, FULL, _GUESS),
    ("mineral", "R290", 0.40, 0.25, 0.20, True, FULL, _GUESS),
    ("mineral", "R1270", 0.45, 0.25, 0.20, True, FULL, _GUESS),
    ("mineral", "R1234yf", 1.90, 1.20, 0.45, False, HARDLY, _GUESS),
    ("alkylbenzene", "R12", 0.80, 0.50, 0.15, True, FULL, "fluids_yokozeki_2001"),
    ("alkylbenzene", "R22", 0.70, 0.30, 0.30, True, FULL, _GUESS),
    ("alkylbenzene", "R134a", 1.728, 1.061, 0.12, False, PART, "fluids_takigawa_2002"),
    ("alkylbenzene", "R152a", 1.45, 0.90, 0.35, True, PART, _GUESS),
    ("alkylbenzene", "R600a", 0.35, 0.25, 0.15, True, FULL, _GUESS),
    ("alkylbenzene", "R290", 0.40, 0.25, 0.20, True, FULL, _GUESS),
    ("alkylbenzene", "R1270", 0.40, 0.25, 0.20, True, FULL, _GUESS),
    ("alkylbenzene", "R1234yf", 1.60, 1.00, 0.45, False, PART, _GUESS),
    ("ester", "R12", 0.60, 0.30, 0.30, False, FULL, _GUESS),
    ("ester", "R22", 0.577, 0.0, 0.20, False, FULL, "fluids_martz_jacobi_1994"),
    ("ester", "R134a", 0.839, 0.533, 0.20, True, FULL, "fluids_wahlstrom_vamling_2000"),
    ("ester", "R152a", 0.736, 0.514, 0.13, True, FULL, "fluids_wahlstrom_vamling_2000"),
    ("ester", "R600a", 0.359, 0.283, 0.12, True, FULL, "fluids_marcelino_barbosa_2008"),
    ("ester", "R290", 0.55, 0.30, 0.25, True, FULL, _GUESS),
    ("ester", "R1270", 0.50, 0.30, 0.25, True, FULL, _GUESS),
    ("ester", "R1234yf", 0.85, 0.55, 0.25, True, FULL, _GUESS),
)

PAIRS = {(row[0], row[1]): OilPair(*row) for row in _ROWS}
