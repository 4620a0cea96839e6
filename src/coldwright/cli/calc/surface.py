"""`calc surface`: what a cold plate, drum, tube or box takes from still air."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

from coldwright.cli.calc import surface_options as given
from coldwright.cli.calc.answer import ICE_POINT, Data, worked_out
from coldwright.cli.calc.entries import Entries, Entry
from coldwright.cli.calc.surface_fins import FinTexts, FinWords, read_fins
from coldwright.cli.calc.surface_shape import SizeTexts, read_sizes
from coldwright.cli.calc.surface_text import show
from coldwright.cli.terminal import SHOP, AsJson, Units, faults_shown
from coldwright.errors import InputError
from coldwright.units import Kind

if TYPE_CHECKING:
    from coldwright.shop.surfaces import Surface

TEMPERATURES = (213.15, 373.15)  # K, about where the films of air are known
EMISSIVITIES = (0.01, 1.0)
LINER_AREAS = (1e-3, 100.0)  # m2
USUAL_LINER = "0.9"
FROSTS_M = (5e-4, 3e-3)


@dataclass(frozen=True)
class Asked:
    """Everything but the numbers: shape, fins, finish."""

    shape: str
    ends: str
    faces: int
    fins: FinWords | None
    finish: str
    finish_source: str
    atmosphere_Pa: float


def surface(  # noqa: PLR0913, PLR0917 (the options of one command)
    shape: given.Shape = None,
    height: given.Height = None,
    width: given.Width = None,
    depth: given.Depth = None,
    diameter: given.Diameter = None,
    length: given.Length = None,
    faces: given.Faces = None,
    ends: given.Ends = None,
    emissivity: given.Emissivity = None,
    finish: given.Finish = None,
    surface_temperature: given.SurfaceTemperature = None,
    air: given.Air = None,
    liner: given.Liner = None,
    liner_area: given.LinerArea = None,
    liner_emissivity: given.LinerEmissivity = None,
    fins: given.Fins = None,
    fin_height: given.FinHeight = None,
    fin_length: given.FinLength = None,
    fin_thickness: given.FinThickness = None,
    fin_material: given.FinMaterial = None,
    fin_bond: given.FinBond = None,
    altitude: given.Altitude = None,
    units: Units = SHOP,
    as_json: AsJson = False,
) -> None:
    """Watts from still air into a cold surface, clean and frosted, with fins or without."""
    entries = Entries()
    with faults_shown(as_json):
        system = entries.system(units)
        atmosphere = entries.atmosphere(altitude)
        sizes = SizeTexts(shape, height, width, depth, diameter, length, faces, ends)
        body, inputs = read_sizes(entries, sizes)
        skin, inputs["emissivity"] = _skin(entries, emissivity, finish)
        inputs |= _around(entries, surface_temperature, air, liner, liner_area, liner_emissivity)
        texts = FinTexts(fins, fin_height, fin_length, fin_thickness, fin_material, fin_bond)
        stood, fin_inputs = read_fins(entries, texts, body.shape, inputs)
        inputs |= fin_inputs
        entries.settle()
        asked = Asked(
            body.shape,
            body.ends,
            body.faces,
            stood,
            "" if skin is None else skin.name,
            "" if skin is None else skin.source,
            atmosphere,
        )

        def compute(**values: float) -> Data:
            return figures(asked, values)

        show(worked_out(compute, inputs), asked, system, entries.remarks, as_json)


def _skin(
    entries: Entries, emissivity: str | None, finish: str | None
) -> tuple[Surface | None, Entry]:
    """The finish if one is named, and the emissivity."""
    from coldwright.shop.surfaces import surface as finish_named  # noqa: PLC0415 (reads a file)

    if (emissivity is None) == (finish is None):
        entries.fault(
            "--emissivity",
            "One of --emissivity and --finish must be given, and only one.",
            "radiation brings as much as still air: 0.9 painted, 0.25 galvanised, 0.05 polished",
        )
    number = entries.optional("--emissivity", emissivity, Kind.ratio, EMISSIVITIES)
    if finish is None:
        return None, number or Entry(0.9)
    try:
        row = finish_named(finish)
    except InputError as error:
        for each in error.faults:
            entries.fault("--finish", each.message, each.hint)
        return None, Entry(0.9)
    return row, Entry(row.emissivity, row.emissivity_uncertainty, EMISSIVITIES)


def _around(
    entries: Entries,
    metal: str | None,
    air: str | None,
    liner: str | None,
    area: str | None,
    emissivity: str | None,
) -> dict[str, Entry]:
    """Temperatures of metal, air and liner, and the liner's area and emissivity."""
    found = {
        "metal": entries.needed("--surface-temperature", metal, Kind.temperature, TEMPERATURES),
        "air": entries.needed("--air", air, Kind.temperature, TEMPERATURES),
    }
    rows = (
        ("liner", "--liner", liner, Kind.temperature, TEMPERATURES),
        ("liner_area", "--liner-area", area, Kind.area, LINER_AREAS),
        (
            "liner_emissivity",
            "--liner-emissivity",
            emissivity or USUAL_LINER,
            Kind.ratio,
            EMISSIVITIES,
        ),
    )
    for name, option, text, kind, bounds in rows:
        entry = entries.optional(option, text, kind, bounds)
        if entry is not None:
            found[name] = entry
    return found


def figures(asked: Asked, values: Mapping[str, float]) -> Data:
    """The figures, clean at top and frosted below `frosted`."""
    import numpy as np  # noqa: PLC0415 (slow to import)

    from coldwright.cli.calc.surface_parts import answer_of, fin_gap  # noqa: PLC0415 (slow to import)

    freezing = values["metal"] < ICE_POINT
    frosts = (0.0, *FROSTS_M) if freezing else (0.0,)
    found = answer_of(asked, values, np.array(frosts))
    area = float(np.ravel(found.films.outside_area)[0])

    def one(lane: int) -> Data:
        def at(value: object) -> float:
            flat = np.ravel(np.asarray(value, dtype=np.float64))
            return float(flat[lane if flat.size > 1 else 0])

        return {
            "conductance_W_per_K": at(found.conductance),
            "heat_W": at(found.heat),
            "heat_W_per_m2": at(found.heat) / area,
            "convection_W": at(found.convection),
            "radiation_W": at(found.radiation),
            "film_W_m2K": at(found.films.film_coefficient),
            "radiation_film_W_m2K": at(
                found.films.radiative_conductance
                / (found.films.outside_area * found.films.fin_efficiency)
            ),
            "fin_efficiency": at(found.fin_efficiency) if asked.fins else None,
            "skin_C": at(found.frost_surface_temperature) - ICE_POINT,
        }

    clean = one(0)
    return {
        "shape": asked.shape,
        "finish": asked.finish or None,
        "emissivity": values["emissivity"],
        "surface_temperature_C": values["metal"] - ICE_POINT,
        "air_C": values["air"] - ICE_POINT,
        "liner_C": values.get("liner", values["air"]) - ICE_POINT,
        **clean,
        "area_m2": area,
        "fin_gap_m": fin_gap(asked, values),
        "sizes": dict(values),
        "frosted": {
            f"{1e3 * thickness:g}_mm": {"frost_m": thickness, **one(lane)}
            for lane, thickness in enumerate(frosts)
            if lane > 0
        },
    }
