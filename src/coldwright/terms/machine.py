"""Terms of the machine: the compressor with its rating, and the condenser."""

from __future__ import annotations

from coldwright.terms.glossary import Term
from coldwright.units import Kind


def _rated_temperature(key: str, name: str, meaning: str, least: float, greatest: float) -> Term:
    """A temperature of the rating point: exact, since it defines the point."""
    return Term(
        f"compressor.{key}", name, meaning, Kind.temperature, least=least, greatest=greatest
    )


def _size(key: str, name: str, meaning: str, greatest: float, *, tolerance: float = 0.02) -> Term:
    """A length of the condenser that must be positive."""
    return Term(
        f"condenser.{key}",
        name,
        meaning,
        Kind.length,
        least=0.0,
        greatest=greatest,
        least_excluded=True,
        usual_relative_uncertainty=tolerance,
    )


_COMPRESSOR = (
    Term(
        "compressor.displacement",
        "Displacement",
        "Volume that the piston sweeps in one turn.",
        Kind.volume,
        least=0.0,
        greatest=1.0e-4,
        least_excluded=True,
        usual_relative_uncertainty=0.02,
    ),
    Term(
        "compressor.rated_capacity",
        "Rated capacity",
        "Cooling that the maker's data sheet gives at the rating point.",
        Kind.heat_flow,
        least=0.0,
        greatest=5000.0,
        least_excluded=True,
        usual_relative_uncertainty=0.05,
    ),
    Term(
        "compressor.rated_power",
        "Rated power",
        "Electrical power that the data sheet gives at the rating point.",
        Kind.power,
        least=0.0,
        greatest=5000.0,
        least_excluded=True,
        usual_relative_uncertainty=0.05,
    ),
    _rated_temperature(
        "rated_evaporating_temperature",
        "Rated evaporating temperature",
        "Evaporating temperature of the rating point, as dew temperature.",
        213.15,
        293.15,
    ),
    _rated_temperature(
        "rated_condensing_temperature",
        "Rated condensing temperature",
        "Condensing temperature of the rating point, as dew temperature.",
        288.15,
        343.15,
    ),
    _rated_temperature(
        "rated_return_gas_temperature",
        "Rated return gas temperature",
        "Temperature of the gas that enters the shell at the rating point.",
        223.15,
        323.15,
    ),
    _rated_temperature(
        "rated_liquid_temperature",
        "Rated liquid temperature",
        "Temperature of the liquid ahead of the expansion at the rating point.",
        263.15,
        343.15,
    ),
    Term(
        "compressor.voltage",
        "Rated voltage",
        "Voltage on the compressor's plate.",
        Kind.voltage,
        least=9.0,
        greatest=480.0,
    ),
    Term(
        "compressor.frequency",
        "Rated frequency",
        "Frequency on the compressor's plate, for which displacement and capacity hold.",
        Kind.frequency,
        least=40.0,
        greatest=70.0,
    ),
    Term(
        "compressor.current",
        "Current reading",
        "One reading of the running current, taken together with the power reading.",
        Kind.current,
        least=0.0,
        greatest=50.0,
        least_excluded=True,
        usual_relative_uncertainty=0.03,
    ),
    Term(
        "compressor.power_reading",
        "Power reading",
        "One reading of the running power, taken together with the current reading.",
        Kind.power,
        least=0.0,
        greatest=5000.0,
        least_excluded=True,
        usual_relative_uncertainty=0.03,
    ),
    Term(
        "compressor.nameplate_power",
        "Nameplate power",
        "Input power that the plate of the machine states; often the most that it draws.",
        Kind.power,
        least=10.0,
        greatest=2000.0,
        usual_relative_uncertainty=0.25,
    ),
    Term(
        "compressor.nameplate_current",
        "Nameplate current",
        "Running current that the plate of the machine states.",
        Kind.current,
        least=0.1,
        greatest=50.0,
        usual_relative_uncertainty=0.25,
    ),
    Term(
        "compressor.nameplate_charge",
        "Nameplate charge",
        "Refrigerant that the plate of the machine states.",
        Kind.mass,
        least=0.0,
        greatest=2.0,
        least_excluded=True,
    ),
    Term(
        "compressor.speed",
        "Running speed",
        "Turns of a variable-speed machine as its control sets them.",
        Kind.frequency,
        least=5.0,
        greatest=150.0,
    ),
    Term(
        "compressor.rated_speed",
        "Rated speed",
        "Turns at which the data sheet's figures hold.",
        Kind.frequency,
        least=5.0,
        greatest=150.0,
    ),
    Term(
        "compressor.locked_rotor_current",
        "Locked-rotor current",
        "Current while the motor stands, as it does for the first half second; LRA on the plate.",
        Kind.current,
        least=0.5,
        greatest=300.0,
        usual_relative_uncertainty=0.05,
    ),
    Term(
        "compressor.shell_diameter",
        "Shell diameter",
        "Mean diameter of the compressor's shell.",
        Kind.length,
        least=0.05,
        greatest=0.5,
        usual_relative_uncertainty=0.03,
    ),
    Term(
        "compressor.shell_height",
        "Shell height",
        "Height of the compressor's shell without its feet.",
        Kind.length,
        least=0.05,
        greatest=0.6,
        usual_relative_uncertainty=0.03,
    ),
    Term(
        "compressor.oil_amount",
        "Oil amount",
        "Volume of oil in the shell.",
        Kind.volume,
        least=0.0,
        greatest=0.005,
        usual_relative_uncertainty=0.1,
    ),
    Term(
        "compressor.shell_free_volume",
        "Free volume of the shell",
        "Gas space inside the shell, without pump, motor and oil.",
        Kind.volume,
        least=0.0,
        greatest=0.05,
        usual_relative_uncertainty=0.15,
    ),
)

_CONDENSER = (
    _size("tube_length", "Condenser tube length", "Length of tube that gives off heat.", 200.0),
    _size("tube_outside_diameter", "Condenser tube outside diameter", "Over the tube.", 0.1),
    _size("tube_inside_diameter", "Condenser tube inside diameter", "Bore of the tube.", 0.1),
    _size("tube_pitch", "Condenser tube pitch", "From one run to the next, middle to middle.", 1.0),
    _size("sheet_width", "Condenser sheet width", "Width of the sheet.", 5.0),
    _size("sheet_height", "Condenser sheet height", "Height of the sheet.", 5.0),
    _size("sheet_thickness", "Condenser sheet thickness", "Thickness of it.", 0.02, tolerance=0.05),
    _size(
        "gap",
        "Gap behind the condenser",
        "Clear space between the condenser and the back of the cabinet.",
        2.0,
        tolerance=0.05,
    ),
    _size(
        "chimney_height",
        "Chimney height",
        "Height over which the warm air rises between the condenser and the back.",
        5.0,
    ),
    Term(
        "condenser.emissivity",
        "Emissivity of the condenser",
        "Share of a black body's radiation that the condenser gives: 0.05 bright, 0.9 painted.",
        Kind.ratio,
        least=0.0,
        greatest=1.0,
        least_excluded=True,
        usual_uncertainty=0.03,
    ),
    Term(
        "condenser.bond_conductance",
        "Condenser bond conductance",
        "Heat through the joint of tube and sheet, per metre of tube and per degree.",
        Kind.linear_conductance,
        least=0.0,
        greatest=1000.0,
        least_excluded=True,
        usual_relative_uncertainty=0.4,
    ),
    Term(
        "condenser.shaded_fraction",
        "Shaded fraction",
        "Share of the condenser's face that a frame or trim keeps from air and room.",
        Kind.ratio,
        least=0.0,
        greatest=0.95,
        usual_uncertainty=0.03,
    ),
)

TERMS = _COMPRESSOR + _CONDENSER
