"""Terms of the machine: the compressor with its rating."""

from __future__ import annotations

from coldwright.terms.glossary import Term
from coldwright.units import Kind


def _rated_temperature(key: str, name: str, meaning: str, least: float, greatest: float) -> Term:
    """A temperature of the rating point: exact, since it defines the point."""
    return Term(
        f"compressor.{key}", name, meaning, Kind.temperature, least=least, greatest=greatest
    )


TERMS = (
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
