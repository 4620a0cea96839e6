from __future__ import annotations

import re

import pytest

from coldwright.build import key_table, loads, starter_names, starter_text
from coldwright.build.defaults import ALWAYS, BOND_CONDUCTANCES, DEFAULTS
from coldwright.build.key_table import DERIVED, MANDATORY
from coldwright.build.schema.fields import Measure
from coldwright.build.schema.walk import all_fields, field_at
from coldwright.errors import InputError
from coldwright.units import Kind, parse_quantity
from support.builds import build_text

ROWS = {row.path: row for row in key_table()}
FIELDS = dict(all_fields())


def test_every_key_of_every_starter_stands_in_the_table():
    for name in starter_names():
        for path in loads(starter_text(name)).quantities:
            assert re.sub(r"\[\d+\]", "[]", path) in ROWS


def test_defaults_name_known_keys_and_pass_their_own_checks():
    for default in DEFAULTS:
        field = FIELDS[default.path]
        assert default.source
        if isinstance(field.note, Measure):
            field.note.read(default.value, subject="It")
        elif field.choices:
            assert default.value in field.choices
    for name in ALWAYS:
        assert FIELDS[name].section is not None
    for text in BOND_CONDUCTANCES.values():
        assert parse_quantity(text, Kind.linear_conductance, field="bond").value >= 0.0


def test_every_example_of_a_quantity_passes_its_own_check():
    measured = [field for field in FIELDS.values() if isinstance(field.note, Measure)]
    assert len(measured) > 100
    for field in measured:
        quantity = field.note.read(field.note.example, subject=field.key)
        assert quantity.kind is field.note.term.kind


def test_every_row_says_what_it_is():
    for row in ROWS.values():
        assert row.meaning.endswith((".", ":"))
        assert row.kind


def test_what_the_table_calls_mandatory_is_what_a_file_must_hold():
    assert {
        path for path, row in ROWS.items() if row.default == MANDATORY and "[]" not in path
    } == {
        "format",
        "targets.air_temperature",
        "cabinet.inside_width",
        "cabinet.inside_height",
        "cabinet.inside_depth",
        "cabinet.drain.diameter",
        "cold_side.kind",
        "cold_side.tube.length",
        "cold_side.vessel.height",
        "cold_side.brine.kind",
        "cold_side.brine.fraction",
        "cold_side.holdover.filling",
        "cold_side.fins.count",
        "cold_side.fins.height",
        "cold_side.plate.width",
        "cold_side.plate.height",
        "compressor.map.power",
        "compressor.lead.length",
        "condenser.tube.length",
        "condenser.wires.diameter",
        "condenser.wires.pitch",
        "condenser.sheet_width",
        "condenser.sheet_height",
        "capillary.bore",
        "capillary.length",
        "return_exchanger.length",
        "refrigerant.name",
        "thermostat.knob.cut_out_warmest",
        "thermostat.knob.cut_out_coldest",
    }


def test_what_the_table_calls_derived_may_be_left_out():
    text = build_text("larder")
    keys = {row.path.rsplit(".", 1)[-1] for row in ROWS.values() if row.default == DERIVED}
    for key in sorted(keys & {"start", "coil_diameter", "oil", "mains_voltage", "adjoining"}):
        kept = [line for line in text.split("\n") if not line.startswith(f"{key} =")]
        assert len(kept) < len(text.split("\n"))
        loads("\n".join(kept))


def test_field_by_path():
    field = field_at(("cabinet", "layers", 1, "thickness"))
    assert field is not None
    assert field.key == "thickness"
    assert field_at(("cabinet", "layers", 1)) is None
    assert field_at(("cabinet", "nothing", "thickness")) is None


def test_a_bad_value_names_the_bounds():
    note = FIELDS["thermostat.bulb_lag"].note
    assert isinstance(note, Measure)
    with pytest.raises(InputError, match="at most 60 min"):
        note.read("5 h", subject="Bulb lag")
