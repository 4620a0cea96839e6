"""What a plate and a bare tube share: their source is the compartment that they cool."""

from __future__ import annotations

from dataclasses import dataclass
from typing import cast

from coldwright.arrays import FloatOrArray
from coldwright.parts.cold_side.cold_surface import ColdSurface
from coldwright.parts.cold_side.surface_heat import (
    ColdSide,
    SourceLink,
    SurfaceFilms,
    SurfaceHeat,
    compartment_link,
    heat_of_surface,
)
from coldwright.parts.cold_side.tube import EvaporatorTube
from coldwright.parts.conditions import STANDARD_PRESSURE


@dataclass(frozen=True, kw_only=True)
class AirSourced:
    """Metal that takes its heat straight from the compartment's air and liner."""

    tube: EvaporatorTube
    surface: ColdSurface

    @property
    def source_is_air(self) -> bool:
        """The source is the compartment itself."""
        return True

    def source_link(
        self,
        source_temperature: FloatOrArray,
        inner_surface_temperature: FloatOrArray,
        films: SurfaceFilms,
    ) -> SourceLink:
        """The metal lies colder than the source by heat / (both conductances)."""
        del source_temperature, inner_surface_temperature
        return compartment_link(films)

    def surface_heat(
        self,
        source_temperature: FloatOrArray,
        compartment_air_temperature: FloatOrArray,
        liner_temperature: FloatOrArray,
        pressure: FloatOrArray = STANDARD_PRESSURE,
        *,
        latent_heat: FloatOrArray = 0.0,
    ) -> SurfaceHeat:
        """Heat [W] from air and liner into metal whose mean temperature is `source_temperature`.

        For the clock, where the metal is a node of its own. (In the balance the source is the
        compartment's effective temperature, and no resistance lies before it.)
        """
        return heat_of_surface(
            cast(ColdSide, self),
            source_temperature,
            compartment_air_temperature,
            liner_temperature,
            pressure,
            latent_heat,
        )
