"""`calc capillary`: what a capillary tube passes, or how long each stock bore must be."""

from __future__ import annotations

from coldwright.cli.calc import capillary_options as given
from coldwright.cli.calc.capillary_entries import Texts, read
from coldwright.cli.calc.entries import Entries
from coldwright.cli.calc.options import AltitudeText
from coldwright.cli.terminal import SHOP, AsJson, Units, faults_shown


def capillary(  # noqa: PLR0913, PLR0917 (the options of one command)
    gas: given.GasName = None,
    refrigerant: given.GasOption = None,
    bore: given.Bore = None,
    length: given.Length = None,
    flow: given.Flow = None,
    condensing: given.Condensing = None,
    inlet_pressure: given.InletPressure = None,
    subcooling: given.Subcooling = None,
    quality: given.Quality = None,
    evaporating: given.Evaporating = None,
    exchanger_length: given.ExchangerLength = None,
    exchanger_start: given.ExchangerStart = None,
    exchanger_kind: given.ExchangerKind = None,
    return_gas: given.ReturnGas = None,
    suction_bore: given.SuctionBore = None,
    outside_diameter: given.OutsideDiameter = None,
    coil_diameter: given.CoilDiameter = None,
    roughness: given.Roughness = None,
    late_flashing: given.LateFlashing = False,
    altitude: AltitudeText = None,
    units: Units = SHOP,
    as_json: AsJson = False,
) -> None:
    """Flow of a capillary tube, or length of each stock bore, with an exchanger or without."""
    tube = (bore, length, flow, coil_diameter, roughness)
    ends = (condensing, inlet_pressure, subcooling, quality, evaporating)
    exchanger = (exchanger_length, exchanger_start, exchanger_kind)
    line = (return_gas, suction_bore, outside_diameter)
    entries = Entries()
    with faults_shown(as_json):
        system = entries.system(units)
        atmosphere = entries.atmosphere(altitude)
        if gas is not None and refrigerant is not None:
            entries.fault(
                "--refrigerant", "--refrigerant must be left out where REFRIGERANT is given."
            )
        texts = Texts(gas or refrigerant, *tube, *ends, *exchanger, *line)
        asked, inputs = read(entries, texts, atmosphere, late_flashing)
        # Slow to import, and not needed where an entry has a fault.
        from coldwright.cli.calc import capillary_figures, capillary_text  # noqa: PLC0415

        if flow is None:
            data = capillary_figures.answer_flow(asked, inputs)
            capillary_text.show_flow(data, asked, system, atmosphere, as_json)
        else:
            data = capillary_figures.answer_lengths(asked, inputs)
            capillary_text.show_lengths(data, asked, system, atmosphere, as_json)
