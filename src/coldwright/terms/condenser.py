"""Terms of the condenser: its tube, sheet or wires, and the place it stands in."""

from __future__ import annotations

from coldwright.terms.glossary import Term, size
from coldwright.units import Kind


def _size(key: str, name: str, meaning: str, greatest: float, *, tolerance: float = 0.02) -> Term:
    """A length of the condenser that must be positive."""
    return size(f"condenser.{key}", name, meaning, greatest, tolerance=tolerance)


TERMS = (
    _size("tube_length", "Condenser tube length", "Length of tube that gives off heat.", 200.0),
    _size("tube_outside_diameter", "Condenser tube outside diameter", "Over the tube.", 0.1),
    _size("tube_inside_diameter", "Condenser tube inside diameter", "Bore of the tube.", 0.1),
    _size("tube_pitch", "Condenser tube pitch", "From one run to the next, middle to middle.", 1.0),
    _size("sheet_width", "Condenser sheet width", "Of the sheet, or of the panel.", 5.0),
    _size("sheet_height", "Condenser sheet height", "Of the sheet, or of the panel.", 5.0),
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
    Term(
        "condenser.area_factor",
        "Area factor of the sheet",
        "Developed over plane area of a corrugated sheet: 1 for a flat one.",
        Kind.number,
        least=1.0,
        greatest=3.0,
        usual_relative_uncertainty=0.05,
    ),
    Term(
        "condenser.opening",
        "Opening of the gap",
        "Share of the gap's section that is open at foot and top: skirting and trim narrow it.",
        Kind.ratio,
        least=0.05,
        greatest=1.0,
        usual_uncertainty=0.05,
    ),
    Term(
        "condenser.wall_behind",
        "Wall behind the condenser",
        "Clear distance from the condenser to a wall or panel on the room's side.",
        Kind.length,
        least=0.005,
        greatest=10.0,
        usual_relative_uncertainty=0.1,
    ),
    Term(
        "condenser.air_rise",
        "Warmth of the air at the condenser",
        "How far the air that comes in to the condenser is above the room's.",
        Kind.temperature_difference,
        least=0.0,
        greatest=20.0,
        usual_uncertainty=0.5,
    ),
    Term(
        "condenser.dirt",
        "Dirt on the condenser",
        "Share of the outside film that dust and lint take: 0 clean.",
        Kind.ratio,
        least=0.0,
        greatest=0.8,
        usual_uncertainty=0.03,
    ),
    _size("wires.diameter", "Wire diameter", "Of the wires across the tube.", 0.01),
    _size("wires.pitch", "Wire pitch", "From one wire to the next, middle to middle.", 0.2),
)
