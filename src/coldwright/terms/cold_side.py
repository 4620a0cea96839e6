"""Terms of the cold side: a brine vessel, a cold plate or a bare tube, its fins and its tube."""

from __future__ import annotations

from coldwright.terms.glossary import Term, size
from coldwright.units import Kind


def _size(key: str, name: str, meaning: str, greatest: float, *, tolerance: float = 0.02) -> Term:
    """A length that must be positive."""
    return size(f"cold_side.{key}", name, meaning, greatest, tolerance=tolerance)


def _bond(key: str, name: str, meaning: str) -> Term:
    """The conductance of a joint, per metre of it."""
    return Term(
        f"cold_side.{key}",
        name,
        meaning,
        Kind.linear_conductance,
        least=0.0,
        greatest=1000.0,
        least_excluded=True,
        usual_relative_uncertainty=0.4,
    )


TERMS = (
    Term(
        "cold_side.emissivity",
        "Emissivity of the cold surface",
        "Share of a black body's radiation that it gives: 0.05 polished, 0.95 frosted.",
        Kind.ratio,
        least=0.0,
        greatest=1.0,
        least_excluded=True,
        usual_uncertainty=0.03,
    ),
    Term(
        "cold_side.frost",
        "Frost on the cold side",
        "Thickness of frost that the cold surface carries as a mean between two defrostings.",
        Kind.length,
        least=0.0,
        greatest=0.05,
        usual_relative_uncertainty=0.5,
    ),
    _size("tube_length", "Evaporator tube length", "Length of tube that can boil.", 200.0),
    _size("tube_outside_diameter", "Evaporator tube outside diameter", "Over the tube.", 0.1),
    _size("tube_inside_diameter", "Evaporator tube inside diameter", "Bore of the tube.", 0.1),
    _size(
        "tube_pitch", "Evaporator tube pitch", "From one run to the next, middle to middle.", 1.0
    ),
    _size("coil_diameter", "Coil diameter", "Mean diameter of the evaporator coil.", 3.0),
    Term(
        "cold_side.brine_fraction",
        "Brine fraction",
        "Share of antifreeze or salt in the brine, by volume or by mass as the build says.",
        Kind.ratio,
        least=0.0,
        greatest=0.95,
        usual_uncertainty=0.02,
    ),
    Term(
        "cold_side.immersed_fraction",
        "Immersed fraction",
        "Share of the evaporator tube that lies below the brine level.",
        Kind.ratio,
        least=0.0,
        greatest=1.0,
        least_excluded=True,
        usual_uncertainty=0.03,
    ),
    Term(
        "cold_side.filler_volume",
        "Filler volume",
        "Volume of the body that displaces brine inside the vessel.",
        Kind.volume,
        least=0.0,
        greatest=2.0,
        usual_relative_uncertainty=0.03,
    ),
    Term(
        "cold_side.coil_turns",
        "Turns of the coil",
        "Turns of the evaporator coil; they give the tube's length where it is not written.",
        Kind.number,
        least=0.0,
        greatest=1000.0,
        least_excluded=True,
        usual_uncertainty=0.1,
    ),
    Term(
        "cold_side.lid_exposed",
        "Share of the lid in the air",
        "Share of the vessel's lid that the air reaches: 100 % free, 0 % under a wooden cover.",
        Kind.ratio,
        least=0.0,
        greatest=1.0,
        usual_uncertainty=0.03,
    ),
    Term(
        "cold_side.floor_exposed",
        "Share of the floor in the air",
        "Share of the vessel's floor that the air reaches: 100 % hung free, 0 % on a closed shelf.",
        Kind.ratio,
        least=0.0,
        greatest=1.0,
        usual_uncertainty=0.03,
    ),
    Term(
        "cold_side.headspace",
        "Headspace",
        "Height of air left above the brine for its expansion.",
        Kind.length,
        least=0.0,
        greatest=2.0,
        usual_uncertainty=0.003,
    ),
    Term(
        "cold_side.holdover.state_of_charge",
        "State of charge",
        "Frozen share of a holdover's store at which it is worked out: 0 % melted, 100 % full.",
        Kind.ratio,
        least=0.0,
        greatest=1.0,
        usual_uncertainty=0.1,
    ),
    _size("vessel.diameter", "Vessel diameter", "Outside diameter of a round vessel.", 3.0),
    _size("vessel.height", "Vessel height", "Outside height of the vessel.", 5.0),
    _size("vessel.width", "Vessel width", "Outside width of a flat vessel.", 5.0),
    _size("vessel.depth", "Vessel depth", "Outside depth of a flat vessel.", 3.0),
    Term(
        "cold_side.vessel.area",
        "Measured vessel area",
        "Whole outside area of a vessel of any closed shape, as measured.",
        Kind.area,
        least=0.0,
        greatest=20.0,
        least_excluded=True,
        usual_relative_uncertainty=0.05,
    ),
    Term(
        "cold_side.vessel.volume",
        "Measured vessel volume",
        "Outside volume of a vessel of any closed shape, as measured (what it displaces).",
        Kind.volume,
        least=0.0,
        greatest=2.0,
        least_excluded=True,
        usual_relative_uncertainty=0.03,
    ),
    _size(
        "vessel.wall_thickness",
        "Vessel wall thickness",
        "Thickness of the vessel's sheet.",
        0.05,
        tolerance=0.05,
    ),
    Term(
        "cold_side.fins.count",
        "Number of fins",
        "Upright fins on the outside of the vessel or on the plate.",
        Kind.number,
        least=0.0,
        greatest=1000.0,
        whole=True,
    ),
    _size("fins.height", "Fin height", "Upright length of a fin, along the air's fall.", 5.0),
    _size("fins.depth", "Fin depth", "How far a fin stands out from its surface.", 0.5),
    _size("fins.thickness", "Fin thickness", "Thickness of a fin.", 0.02, tolerance=0.05),
    _bond(
        "fins.bond_conductance",
        "Fin bond conductance",
        "Heat through the joint at a fin's root, per metre of fin and per degree.",
    ),
    _size("plate.width", "Plate width", "Width of the cold plate.", 5.0),
    _size("plate.height", "Plate height", "Height of the cold plate.", 5.0),
    _size(
        "plate.thickness",
        "Plate thickness",
        "Thickness of the plate's sheet.",
        0.05,
        tolerance=0.05,
    ),
    _size("wall_gap", "Gap behind the cold surface", "Clear space to the wall behind it.", 1.0),
    _bond(
        "bond_conductance",
        "Tube bond conductance",
        "Heat through the joint of tube and sheet, per metre of tube and per degree.",
    ),
)
