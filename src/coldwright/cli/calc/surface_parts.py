"""From the entries of `calc surface` to the parts that answer it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import TYPE_CHECKING

from coldwright.arrays import Array, lanes
from coldwright.heat.free_convection.numbers import channel_rayleigh_number, rayleigh_number
from coldwright.parts.cold_side.bare_tube import BareTube
from coldwright.parts.cold_side.cold_surface import ColdSurface
from coldwright.parts.cold_side.films import air_at_film
from coldwright.parts.cold_side.plate import Plate
from coldwright.parts.cold_side.surface_answer import (
    Outside,
    SheetShell,
    Shell,
    SurfaceAnswer,
    surface_answer,
    without_frost_resistance,
)
from coldwright.parts.cold_side.tube import EvaporatorTube
from coldwright.parts.cold_side.upright_fins import UprightFins
from coldwright.parts.cold_side.vessel_shell import VesselShell
from coldwright.shop.materials import material
from coldwright.sources import range_notices

if TYPE_CHECKING:
    from coldwright.cli.calc.surface import Asked

COPPER = 380.0  # W/(m K): of a wall that takes no part in the films
WIDE_LINER = 1e6  # m2: nothing of the surface's own is reflected back


def answer_of(asked: Asked, values: Mapping[str, float], frost: Array) -> SurfaceAnswer:
    """What the surface takes, one lane per thickness of `frost` [m]."""
    skin = ColdSurface(
        emissivity=lanes(values["emissivity"]),
        liner_emissivity=lanes(values["liner_emissivity"]),
        liner_area=lanes(values.get("liner_area", WIDE_LINER)),
        frost_thickness=frost,
    )
    fins = _fins(asked, values)
    outside, resistance = _outside(asked, values, skin, fins)
    return surface_answer(
        outside,
        values["metal"],
        values["air"],
        values.get("liner", values["air"]),
        asked.atmosphere_Pa,
        frost_resistance=resistance,
        fins=fins,
    )


def _outside(
    asked: Asked, values: Mapping[str, float], skin: ColdSurface, fins: UprightFins | None
) -> tuple[Outside, Array | None]:
    """The part, and the frost's resistance where the part would put it into its films."""
    if asked.shape == "horizontal-tube":
        tube = _tube(values["diameter"], values["length"])
        frosted = BareTube(tube=tube, surface=skin)
        resistance = lanes(frosted.frost_resistance_per_length / tube.length)
        return replace(frosted, surface=without_frost_resistance(skin)), resistance
    if asked.shape == "vertical-plate" and fins is None:
        sheet = _plate(values, skin, asked.faces)
        resistance = skin.frost_resistance(sheet.sheet_area * asked.faces)
        return replace(sheet, surface=without_frost_resistance(skin)), resistance
    return Shell(shell=_side(asked, values), surface=skin, fins=fins), None


def _side(asked: Asked, values: Mapping[str, float]) -> VesselShell:
    """The shell that carries fins: a sheet, a drum or a box."""
    if asked.shape == "vertical-plate":
        return SheetShell.of(values["width"], values["height"], asked.faces, COPPER)
    return _shell(asked, values)


def _tube(diameter: float, length: float) -> EvaporatorTube:
    """A tube by its outside; its wall and bore take no part in what the air sees."""
    return EvaporatorTube(
        inside_diameter=lanes(0.8 * diameter),
        outside_diameter=lanes(diameter),
        length=lanes(length),
        wall_conductivity=lanes(COPPER),
    )


def _plate(values: Mapping[str, float], skin: ColdSurface, faces: int) -> Plate:
    """A free-standing sheet; its tube and metal take no part in what the air sees."""
    return Plate(
        tube=_tube(0.01, 1.0),
        surface=skin,
        width=lanes(values["width"]),
        height=lanes(values["height"]),
        thickness=lanes(1e-3),
        conductivity=lanes(COPPER),
        density=lanes(0.0),
        specific_heat=lanes(0.0),
        bond_conductance=lanes(1.0),
        rear_exposed=lanes(faces - 1.0),
    )


def _shell(asked: Asked, values: Mapping[str, float]) -> VesselShell:
    none, all_of_it = lanes(0.0), lanes(1.0)
    cylinder = asked.shape == "vertical-cylinder"
    return VesselShell(
        form="round" if cylinder else "flat",
        width=lanes(values["diameter" if cylinder else "width"]),
        depth=none if cylinder else lanes(values["depth"]),
        height=lanes(values["height"]),
        wall_thickness=none,
        wall_conductivity=lanes(COPPER),
        wall_density=none,
        wall_specific_heat=none,
        top_exposed=all_of_it if asked.ends in ("both", "top") else none,
        bottom_exposed=all_of_it if asked.ends in ("both", "bottom") else none,
    )


def _fins(asked: Asked, values: Mapping[str, float]) -> UprightFins | None:
    if asked.fins is None:
        return None
    metal = material(asked.fins.material)
    return UprightFins(
        count=lanes(values["fin_count"]),
        projection=lanes(values["fin_height"]),
        # a doubt of the height must not make the fin longer than its side
        length=lanes(min(values["fin_length"], values["height"])),
        thickness=lanes(values["fin_thickness"]),
        conductivity=lanes(metal.conductivity),
        bond_conductance=lanes(values["fin_bond"]),
        density=lanes(metal.density),
        specific_heat=lanes(metal.specific_heat),
    )


def fin_gap(asked: Asked, values: Mapping[str, float]) -> float | None:
    """Clear gap between neighbouring fins without frost [m]; None without fins."""
    fins = _fins(asked, values)
    if fins is None:
        return None
    return float(_side(asked, values).finned_side(fins, 0.0)[0].gap)


def range_texts(
    asked: Asked, values: Mapping[str, float], temperatures: Mapping[str, float]
) -> list[str]:
    """Which correlations are asked beyond the data they were fitted on."""
    metal, air = temperatures["metal"], temperatures["air"]
    at_film = air_at_film(metal, air, asked.atmosphere_Pa)
    of_air = (
        at_film.expansion_coefficient,
        at_film.kinematic_viscosity,
        at_film.thermal_diffusivity,
    )
    difference = metal - air

    def driving(length: float) -> Array:
        return rayleigh_number(difference, length, *of_air)

    if difference == 0.0:
        return []
    if asked.shape == "horizontal-tube":
        notices = range_notices("horizontal_cylinder_nusselt", rayleigh=driving(values["diameter"]))
    else:
        name = "vertical_cylinder_nusselt"
        name = name if asked.shape == "vertical-cylinder" else "vertical_plate_nusselt"
        notices = range_notices(name, rayleigh=driving(values["height"]))
        if asked.ends != "none" and asked.shape != "vertical-plate":
            length = driving(float(_side(asked, values).lid_length))
            notices += range_notices("horizontal_plate_unstable_nusselt", rayleigh=length)
            notices += range_notices("horizontal_plate_stable_nusselt", rayleigh=length)
    gap = fin_gap(asked, values)
    if gap is not None:
        channel = channel_rayleigh_number(difference, gap, values["fin_length"], *of_air)
        notices += range_notices("vertical_channel_nusselt", channel_rayleigh=channel)
    return [notice.text for notice in notices]
