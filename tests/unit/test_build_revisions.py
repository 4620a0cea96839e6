from __future__ import annotations

import pytest

from coldwright.build import loads, revisions
from coldwright.errors import InputError
from support.builds import build_text

LARDER = build_text("larder")


def with_changes(*changes: str, name: str = "trial") -> str:
    return f'{LARDER}\n[[revision]]\nname = "{name}"\n[revision.changes]\n' + "\n".join(changes)


def test_base_is_the_box_as_the_body_describes_it():
    base = loads(LARDER)
    assert base.cold_side.fins is None
    assert base.capillary.length.value == pytest.approx(2.7)
    assert [revision.name for revision in revisions(base)] == ["fins", "longer capillary"]
    assert revisions(base)[0].date == "2026-03-14"


def test_each_revision_builds_upon_the_ones_above_it():
    fins = loads(LARDER, revision="fins")
    assert fins.cold_side.fins is not None
    assert fins.cold_side.fins.count.value == 16
    assert fins.capillary.length.value == pytest.approx(2.7)
    longer = loads(LARDER, revision="longer capillary")
    assert longer.cold_side.fins is not None
    assert longer.capillary.length.value == pytest.approx(3.0)
    assert longer.revision == "longer capillary"


def test_defaults_follow_the_changed_entries():
    text = with_changes('"cabinet.inside_height" = "0.80 m"')
    base, trial = loads(text), loads(text, revision="trial")
    assert base.cabinet.gasket.length.value == pytest.approx(2 * (0.55 + 0.95))
    assert trial.cabinet.gasket.length.value == pytest.approx(2 * (0.55 + 0.80))


def test_items_of_a_list_by_place_by_name_and_one_more():
    text = with_changes(
        '"cabinet.layers[2].thickness" = "100 mm"',
        '"cabinet.faces[back].adjoining" = "room"',
        '"cabinet.layers[4]" = { material = "aluminium foil", thickness = "0.1 mm" }',
    ).replace("aluminium foil", "aluminium")
    trial = loads(text, revision="trial")
    assert [layer.material for layer in trial.cabinet.layers][-1] == "aluminium"
    assert trial.cabinet.layers[1].thickness.value == pytest.approx(0.1)
    assert trial.cabinet.face("back").adjoining == "room"
    assert len(loads(text).cabinet.layers) == 3


def test_change_of_kind_removes_and_adds_sections():
    text = with_changes(
        '"cold_side.kind" = "plate"',
        '"cold_side.vessel" = "remove"',
        '"cold_side.brine" = "remove"',
        '"cold_side.fins" = "remove"',
        '"cold_side.plate" = { width = "0.5 m", height = "0.6 m" }',
        '"thermostat.bulb" = "plate"',
    )
    trial = loads(text, revision="trial")
    assert trial.cold_side.vessel is None
    assert trial.cold_side.plate is not None
    assert trial.cold_side.plate.width.value == pytest.approx(0.5)


def test_nested_and_dotted_changes_are_one():
    nested = LARDER.replace(
        '"capillary.length" = "3.0 m"', 'capillary = { length = "3.0 m", bore = "0.028 in" }'
    )
    trial = loads(nested, revision="longer capillary")
    assert trial.capillary.length.value == pytest.approx(3.0)
    assert trial.capillary.bore.value == pytest.approx(0.028 * 0.0254)


def test_unknown_revision_names_the_nearest():
    with pytest.raises(InputError) as caught:
        loads(LARDER, revision="finns")
    assert "did you mean 'fins'" in caught.value.faults[0].hint


@pytest.mark.parametrize(
    ("change", "field", "message"),
    [
        ('"capillary.length" = "0.2 m"', "return_exchanger.length", "capillary's length 200 mm"),
        ('"capillary.bore" = "1 kg"', "capillary.bore", "which is a mass"),
        ('"capillary.lenght" = "3 m"', "capillary.lenght", "not known in capillary"),
        ('"cabinet.layers[9].thickness" = "1 mm"',
         "revision[3].changes.cabinet.layers[9].thickness", "there is no cabinet.layers[9]"),
        ('"cabinet.faces[roof].layers" = []', "revision[3].changes.cabinet.faces[roof].layers",
         "no item [roof]"),
        ('"name.first" = "x"', "revision[3].changes.name.first", "name is no table"),
        ('"drier.volume" = "remove"', "revision[3].changes.drier.volume", "to remove"),
        ('"format" = 2', "revision[3].changes.format", "cannot be changed"),
        ('"a..b" = 2', "revision[3].changes.a..b", "not a dotted key"),
        ('"capillary" = 3', "capillary", "table of keys"),
    ],
)  # fmt: skip
def test_fault_in_a_change_has_the_line_of_the_revision(change, field, message):
    text = with_changes(change)
    with pytest.raises(InputError) as caught:
        loads(text)
    faults = [fault for fault in caught.value.faults if message in fault.message]
    assert [fault.field for fault in faults] == [field]
    expected = text[: text.index(change)].count("\n") + 1
    if field.startswith("return_exchanger"):  # the unchanged entry that no longer fits
        expected = text[: text.index('length = "1.2 m"')].count("\n") + 1
    assert faults[0].line == expected


def test_key_missing_in_a_table_that_a_revision_makes_points_at_the_revision():
    text = LARDER.replace('"cold_side.fins.count" = 16\n', "", 1)
    with pytest.raises(InputError) as caught:
        loads(text)
    fault = caught.value.faults[0]
    assert fault.field == "cold_side.fins.count"
    assert fault.line == text[: text.index('"cold_side.fins.height"')].count("\n") + 1


def test_a_fault_of_the_body_is_told_once():
    with pytest.raises(InputError) as caught:
        loads(LARDER.replace('bore = "0.031 in"', 'bore = "wide"'))
    assert [fault.field for fault in caught.value.faults] == ["capillary.bore"]


def test_two_revisions_of_one_name():
    with pytest.raises(InputError, match="must stand once"):
        loads(LARDER.replace('name = "longer capillary"', 'name = "fins"'))


def test_revision_without_name_or_changes():
    with pytest.raises(InputError) as caught:
        loads(LARDER + '\n[[revision]]\nwhy = "no reason"\n')
    assert {fault.field for fault in caught.value.faults} == {
        "revision[3].name",
        "revision[3].changes",
    }
