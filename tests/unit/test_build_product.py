"""What is kept gives specific heat and heat, where the maker wrote neither."""

from __future__ import annotations

import re

import pytest

from coldwright.build import loads, starter_names, starter_text
from coldwright.errors import InputError
from coldwright.shop.products import product
from support.builds import build_text

KEYS = (
    "cabinet.contents.specific_heat",
    "cabinet.contents.heat",
    "cabinet.contents.moisture_per_day",
)


def with_product(
    name: str, *, target: str = "12 °C", written: str = 'mass = "30 kg"', warm: str = "20 °C"
) -> str:
    """The cheese cupboard with nothing in `[cabinet.contents]` but `written`."""
    text = build_text("cheese")
    head, rest = text.split("[cabinet.contents]\n")
    rest = rest[rest.index("[cabinet.contents.warm_load]") :]
    text = f'{head}[cabinet.contents]\nproduct = "{name}"\n{written}\n\n{rest}'
    text = text.replace('air_temperature = "12 °C"', f'air_temperature = "{target}"')
    return text.replace('temperature = "20 °C"\n\n[cab', f'temperature = "{warm}"\n\n[cab')


def assumed(build):
    return {entry.field: entry for entry in build.assumed}


def test_without_a_product_the_usual_values_stay():
    text = re.sub(r"^(specific_heat|heat) = .*\n", "", build_text("cheese"), flags=re.MULTILINE)
    build = loads(text)
    found = assumed(build)
    assert build.cabinet.contents.product is None
    assert found[KEYS[0]].text == "3.5 kJ/(kg K) ± 15 %"
    assert found[KEYS[1]].text == "0 W ± 0 W"


@pytest.mark.parametrize("name", starter_names())
def test_what_the_maker_wrote_stays(name):
    text = starter_text(name)
    plain = loads(text)
    named = loads(text.replace("[cabinet.contents]\n", '[cabinet.contents]\nproduct = "apples"\n'))
    for key in KEYS:
        if key in assumed(plain):
            assert assumed(named)[key] != assumed(plain)[key]
        else:
            assert key not in assumed(named)
            assert named.quantities[key] == plain.quantities[key]
    others = [entry for entry in plain.assumed if entry.field not in KEYS]
    assert [entry for entry in named.assumed if entry.field not in KEYS] == others


def test_specific_heat_with_its_spread_and_source():
    build = loads(with_product(" Butter "))
    row = product("butter")
    contents = build.cabinet.contents
    assert contents.product == "butter"
    assert contents.specific_heat.value == pytest.approx(row.specific_heat)
    relative = contents.specific_heat.standard_uncertainty / contents.specific_heat.value
    assert relative == pytest.approx(row.specific_heat_uncertainty)
    assert contents.heat.value == 0.0
    found = assumed(build)
    assert found[KEYS[0]].source.startswith("butter; ASHRAE")
    assert "from memory" in found[KEYS[0]].source
    assert "butter" in found[KEYS[1]].source


def test_living_goods_bring_their_respiration_at_the_target():
    build = loads(with_product("carrots", target="5 °C"))
    heat = build.cabinet.contents.heat
    row = product("carrots")
    assert heat.value == pytest.approx(30.0 * dict(row.respiration)[278.15], rel=1e-5)
    assert heat.standard_uncertainty / heat.value == pytest.approx(row.respiration_uncertainty)
    assert assumed(build)[KEYS[1]].source.startswith("respiration of carrots")
    usual_mass = loads(with_product("carrots", target="5 °C", written=""))
    assert usual_mass.cabinet.contents.heat.value == pytest.approx(0.5 * heat.value, rel=1e-5)


def test_one_written_value_leaves_the_other_to_the_product():
    build = loads(with_product("carrots", written='mass = "30 kg"\nheat = "7 W"'))
    assert build.cabinet.contents.heat.value == 7.0
    assert build.cabinet.contents.specific_heat.value == pytest.approx(3920.0)
    assert KEYS[1] not in assumed(build)


def test_a_freezing_box_counts_the_freezing_of_what_is_put_in():
    build = loads(with_product("meat", target="-18 °C"))
    contents, row = build.cabinet.contents, product("meat")
    mean = (row.specific_heat * 21.7 + row.specific_heat_frozen * 16.3) / 38.0
    assert contents.specific_heat.value == pytest.approx(mean, rel=1e-5)
    assert contents.heat.value == pytest.approx(row.latent_heat / 86400.0, rel=1e-5)
    assert assumed(build)[KEYS[1]].source.startswith("freezing of the meat")
    put_in_frozen = loads(with_product("meat", target="-18 °C", warm="-10 °C"))
    assert put_in_frozen.cabinet.contents.heat.value == 0.0


def test_goods_put_in_as_cold_as_the_box():
    build = loads(with_product("milk", warm="12 °C"))
    assert build.cabinet.contents.specific_heat.value == pytest.approx(3890.0)


def test_an_unknown_product_is_told_with_its_line_and_the_nearest():
    text = with_product("carots")
    with pytest.raises(InputError) as error:
        loads(text)
    (fault,) = error.value.faults
    assert fault.field == "cabinet.contents.product"
    assert fault.line == text[: text.index("carots")].count("\n") + 1
    assert "must be a known product; received 'carots'" in fault.message
    assert "'carrots'" in fault.hint


def test_a_faulty_mass_is_told_once():
    with pytest.raises(InputError) as error:
        loads(with_product("carrots", written='mass = "much"'))
    assert [fault.field for fault in error.value.faults] == ["cabinet.contents.mass"]


def test_a_revision_may_keep_something_else():
    text = with_product("butter") + '"cabinet.contents.product" = "lettuce"\n'
    assert loads(text).cabinet.contents.heat.value == 0.0
    later = loads(text, revision="soldered plate").cabinet.contents
    assert later.product == "lettuce"
    assert later.heat.value > 0.0
