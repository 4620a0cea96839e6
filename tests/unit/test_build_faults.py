from __future__ import annotations

import pytest

from coldwright.build import loads
from coldwright.errors import Fault, InputError
from support.builds import build_text

LARDER = build_text("larder")
GALLEY = build_text("galley")
CHEESE = build_text("cheese")
INSIDE = LARDER.replace(
    '[return_exchanger]\nkind = "soldered"', '[return_exchanger]\nkind = "inside"'
)


def faults_of(text: str) -> tuple[Fault, ...]:
    with pytest.raises(InputError) as caught:
        loads(text)
    return caught.value.faults


def line_in(text: str, needle: str) -> int:
    return text[: text.index(needle)].count("\n") + 1


def one_fault(text: str, old: str, new: str) -> Fault:
    assert text.count(old) == 1
    changed = text.replace(old, new)
    faults = faults_of(changed)
    assert len(faults) == 1, [str(fault) for fault in faults]
    assert faults[0].line == line_in(text, old) + old.lstrip("\n").rstrip().count("\n")
    return faults[0]


SINGLE = [
    # text, what is written, what is written instead, field, part of the message, part of the hint
    (LARDER, 'inside_width = "0.55 m"', 'inside_width = "-0.55 m"', "cabinet.inside_width",
     "must be at least 50 mm", "sign"),
    (LARDER, 'bore = "0.031 in"', 'bore = "0.031 kg"', "capillary.bore", "is a mass", "units"),
    (LARDER, 'bore = "0.031 in"', "bore = nan", "capillary.bore", "received nan", ""),
    (LARDER, 'bore = "0.031 in"', "bore = true", "capillary.bore", "received true", ""),
    (LARDER, 'bore = "0.031 in"', 'bore = ["0.031 in"]', "capillary.bore", "list", ""),
    (LARDER, 'bore = "0.031 in"', 'boar = "0.031 in"\nbore = "0.031 in"', "capillary.boar",
     "Key 'boar' is not known in capillary", "did you mean 'bore'?"),
    (LARDER, 'material = "slab cork"', 'material = "slab crok"', "cabinet.layers[2].material",
     "Material of cabinet layer 2 must be a known material", "did you mean 'slab cork'"),
    (LARDER, 'name = "R152a"', 'name = "R152"', "refrigerant.name", "known refrigerant", "R152a"),
    (LARDER, 'name = "R152a"', "name = 152", "refrigerant.name", "text in quotes", ""),
    (LARDER, 'name = "Butter larder"', "name = false", "name", "text in quotes", ""),
    (LARDER, 'surface = "black paint"', 'surface = "blak paint"', "condenser.surface",
     "known surface", "black paint"),
    (LARDER, 'kind = "propylene glycol"', 'kind = "propylen glycol"', "cold_side.brine.kind",
     "known brine", "propylene glycol"),
    (LARDER, 'size = "3/16 in"', 'size = "3/17 in"', "condenser.tube.size", "known stock tube", ""),
    (LARDER, 'fill = "find"', 'fill = "45 L"', "refrigerant.fill", "which is a volume", ""),
    (LARDER, 'fill = "find"', 'fill = "10 psig"', "refrigerant.fill", "must be a mass", "units: g"),
    (LARDER, 'room_temperature = "21 °C ± 2 K"', 'room_temperature = "21 K"',
     "site.room_temperature", "must be", "Celsius"),
    (LARDER, 'superheat = "5 K"', 'superheat = "5 °C"', "refrigerant.superheat", "difference", ""),
    (LARDER, 'immersed_fraction = "100 %"', 'immersed_fraction = "110 %"',
     "cold_side.vessel.immersed_fraction", "at most 100 %", ""),
    (LARDER, 'units = "shop"', 'units = "metric"', "units", "must be 'shop' or 'si'", ""),
    (LARDER, "format = 1", "format = 2", "format", "Format must be 1", ""),
    (LARDER, "format = 1", "format = true", "format", "Format must be 1", ""),
    (LARDER, 'door = "front"', 'door = "frnt"', "cabinet.door", "'front' or 'lid'", "'front'"),
    (LARDER, '"cold_side.fins.count" = 16', '"cold_side.fins.count" = 16.5',
     "cold_side.fins.count", "whole number", ""),
    (CHEESE, "faces = 2", "faces = 3", "cold_side.plate.faces", "must be 1 or 2; received 3", ""),
    (CHEESE, "faces = 2", "faces = true", "cold_side.plate.faces", "must be 1 or 2", ""),
    (LARDER, "date = 2026-03-14", "date = 14", "revision[1].date", "text in quotes", ""),
]  # fmt: skip


@pytest.mark.parametrize(("text", "old", "new", "field", "message", "hint"), SINGLE)
def test_one_slip_gives_one_fault_at_its_line(text, old, new, field, message, hint):
    fault = one_fault(text, old, new)
    assert fault.field == field
    assert message in fault.message
    assert hint in fault.hint
    assert fault.message.endswith(".")


CONTRADICTIONS = [
    (LARDER, 'diameter = "0.25 m"', 'diameter = "0.47 m"', "cold_side.vessel.diameter", "stand in"),
    (LARDER, 'height = "0.42 m"', 'height = "1.2 m"', "cold_side.vessel.height", "950 mm"),
    (LARDER, 'headspace = "20 mm"', 'filler_volume = "18.7 L"', "cold_side.tube.length",
     "fit into the vessel"),
    (LARDER, 'headspace = "20 mm"', 'headspace = "0.5 m"', "cold_side.vessel.headspace", "less"),
    (LARDER, 'coil_diameter = "0.19 m"', 'coil_diameter = "0.3 m"',
     "cold_side.vessel.coil_diameter", "at most"),
    (LARDER, 'wall_thickness = "1.2 mm"', 'wall_thickness = "50 mm"\nfiller_volume = "15 L"',
     "cold_side.vessel.filler_volume", "less than the vessel holds"),
    (LARDER, 'fraction = "40 %"', 'fraction = "8 %"', "cold_side.brine.fraction", "freezing"),
    (LARDER, 'kind = "propylene glycol"', 'kind = "calcium chloride"', "cold_side.brine.basis",
     "by mass"),
    (LARDER, 'fraction = "40 %"', 'fraction = "80 %"', "cold_side.brine.fraction", "from 0 to"),
    (LARDER, 'cut_in = "-5 °C"', 'cut_in = "-9 °C"', "thermostat.cut_in", "above the cut-out"),
    (LARDER, 'length = "1.2 m"', 'length = "3.2 m"', "return_exchanger.length", "capillary"),
    (LARDER, 'start = "0.9 m"', 'start = "1.8 m"', "return_exchanger.start", "within"),
    (LARDER, 'length = "1.9 m"', 'length = "1.0 m"', "suction_line.length", "exchanger"),
    (INSIDE, 'bore = "0.031 in"', 'bore = "0.031 in"\noutside_diameter = "4 mm"',
     "capillary.outside_diameter", "70 %"),
    (LARDER, 'length = "11 m"', 'length = "150 m"', "condenser.tube.length", "room on the sheet"),
    (LARDER, 'length = "11 m"', 'length = "11 m"\npitch = "3 mm"', "condenser.tube.pitch",
     "outside diameter"),
    (LARDER, 'size = "3/16 in"', 'size = "3/16 in"\noutside_diameter = "5 mm"',
     "condenser.tube.outside_diameter", "be left out"),
    (LARDER, 'length = "11 m"\n', 'length = "20 m"\npitch = "50 mm"\n', "condenser.tube.length",
     "room on the sheet"),
    (LARDER, 'condensing_temperature = "54.4 °C"', 'condensing_temperature = "18 °C"',
     "compressor.rated_points[1].liquid_temperature", "at most the condensing"),
    (LARDER, 'current = "1.35 A"', 'subcooling = "3 K"', "compressor.rated_points[1].subcooling",
     "not by both"),
    (LARDER, 'room_temperature_low = "16 °C"', 'room_temperature_low = "22 °C"',
     "site.room_temperature_low", "at most the usual room"),
    (LARDER, 'air_temperature = "2 °C"', 'air_temperature = "22 °C"', "targets.air_temperature",
     "below the room"),
    (LARDER, 'height_difference = "0.55 m"', 'height_difference = "1.0 m"',
     "cabinet.air_path.height_difference", "inside height"),
    (LARDER, 'name = "bottom"', 'name = "back"', "cabinet.faces[2].name", "described once"),
    (GALLEY, 'bulb = "air"', 'bulb = "vessel well"', "thermostat.bulb", "bare tube"),
    (CHEESE, 'width = "0.45 m"', 'width = "1.3 m"', "cold_side.plate.width", "inside the cabinet"),
    (LARDER, '"cold_side.fins.length" = "0.38 m"', '"cold_side.fins.length" = "0.5 m"',
     "cold_side.fins.length", "vessel's height"),
    (LARDER, '"cold_side.fins.height" = "40 mm"', '"cold_side.fins.height" = "0.2 m"',
     "cold_side.fins.height", "finned vessel"),
    (LARDER, '"cold_side.fins.count" = 16', '"cold_side.fins.count" = 900', "cold_side.fins.count",
     "leave gaps"),
]  # fmt: skip


@pytest.mark.parametrize(("text", "old", "new", "field", "message"), CONTRADICTIONS)
def test_entries_that_cannot_stand_together(text, old, new, field, message):
    assert text.count(old) >= 1
    faults = faults_of(text.replace(old, new, 1))
    assert [fault.field for fault in faults if message in fault.message] == [field]
    assert all(fault.line is not None for fault in faults)


def test_section_of_another_kind_of_cold_side():
    fins = '[cold_side.fins]\ncount = 12\nheight = "30 mm"\n'
    faults = faults_of(GALLEY.replace("# --- revisions", fins + "# --- revisions", 1))
    assert "cannot stand beside a bare tube" in faults[0].message
    brine = '[cold_side.brine]\nkind = "ethanol"\nfraction = "30 %"\n'
    faults = faults_of(CHEESE.replace("# --- revisions", brine + "# --- revisions", 1))
    assert [fault.field for fault in faults] == ["cold_side.brine"]
    faults = faults_of(CHEESE.replace('kind = "plate"', 'kind = "vessel"'))
    fields = {fault.field for fault in faults}
    assert {"cold_side.kind", "cold_side.plate"} <= fields


def test_compressor_has_exactly_one_description():
    text = CHEESE.replace('class = "LBP"', "")
    assert "described in one of four ways" in faults_of(text)[0].message
    text = text.replace(
        "[compressor]\n", "[compressor.nameplate]\ncharge = '80 g'\n\n[compressor]\n"
    )
    assert "Nameplate must hold power or current" in faults_of(text)[0].message
    text = CHEESE.replace('size = "1/12 hp"', "")
    assert "Size of compressor" in faults_of(text)[0].message
    sheet = f"[compressor.map]\ncapacity = {[1.0] * 10}\npower = {[1.0] * 10}\n"
    text = GALLEY.replace("[condenser]\n", f"{sheet}\n[condenser]\n", 1)
    assert "not by both" in faults_of(text)[0].message


def test_map_needs_ten_finite_numbers():
    sheet = f"[compressor.map]\nmass_flow = {[1.0] * 9}\npower = [{'1.0, ' * 9} nan]\n"
    text = CHEESE.replace("[condenser]\n", f"{sheet}\n[condenser]\n", 1)
    messages = [fault.message for fault in faults_of(text)]
    assert any("must hold 10 numbers; received 9" in message for message in messages)
    assert any("finite number" in message for message in messages)


MANDATORY = [
    "format = 1\n",
    'inside_width = "0.60 m"\n',
    'inside_height = "1.20 m"\n',
    'inside_depth = "0.40 m"\n',
    'air_temperature = "12 °C"\n',
    'kind = "plate"\n',
    'width = "0.45 m"\n',
    'height = "0.60 m"\n',
    'length = "6 m"\n',
    'sheet_width = "0.50 m"\n',
    'sheet_height = "0.90 m"\n',
    'length = "8 m"\n',
    'bore = "0.70 mm"\n',
    'length = "3.0 m"\n',
]


@pytest.mark.parametrize("entry", MANDATORY)
def test_what_only_the_maker_can_know_must_be_given(entry):
    key = entry.split(" ")[0]
    faults = faults_of(CHEESE.replace(entry, "", 1))
    assert any(f.field.endswith(key) and "must be given" in f.message for f in faults)
    assert len(faults) == 1


def test_missing_tube_size_is_one_fault():
    faults = faults_of(CHEESE.replace('size = "8 x 1 mm"\n', "", 1))
    assert [fault.field for fault in faults] == ["cold_side.tube.size"]


def test_all_faults_come_at_once_in_the_order_of_lines():
    text = LARDER
    for old, new in (
        ('altitude = "180 m"', 'altitude = "180 kg"'),
        ('"slab cork"', '"slab corkk"'),
        ('cut_out = "-9 °C"', 'cutout = "-9 °C"'),
        ('length = "9 m"', "length = 9"),
        ('"capillary.length" = "3.0 m"', '"capillary.length" = "300 m"'),
        ('fraction = "40 %"', 'fraction = "5 %"'),
    ):
        assert old in text
        text = text.replace(old, new, 1)
    faults = faults_of(text)
    lines = [fault.line for fault in faults]
    assert None not in lines
    assert lines == sorted(lines)
    assert {fault.field for fault in faults} == {
        "site.altitude",
        "cabinet.layers[2].material",
        "cold_side.brine.fraction",
        "cold_side.tube.length",
        "thermostat.cut_out",
        "thermostat.cutout",
        "capillary.length",
    }


def test_a_table_of_the_wrong_type_is_a_fault_not_a_crash():
    assert "table of keys" in faults_of("format = 1\nsite = 5\n")[0].message
    faults = faults_of(
        CHEESE.replace("format = 1", "format = 1\nrevision = 4", 1).split("[[rev")[0]
    )
    assert faults[0].field == "revision"
    everything = "\n".join(f"{key} = 1" for key in ("cabinet", "cold_side", "compressor"))
    fields = {fault.field for fault in faults_of(f"format = 1\n{everything}\n")}
    assert {"cabinet", "cold_side", "compressor", "refrigerant.name"} <= fields


def test_empty_list_of_layers_is_a_fault():
    start = CHEESE.index("[[cabinet.layers]]")
    end = CHEESE.index("[[cabinet.faces]]")
    text = CHEESE[:start] + CHEESE[end:]
    text = text.replace('door = "front"\n', 'door = "front"\nlayers = []\n', 1)
    assert "at least one layer" in faults_of(text)[0].message
