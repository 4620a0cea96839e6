"""Faults of fluids: one sentence, the nearest names, all faults together."""

import pytest

from coldwright.errors import InputError
from coldwright.fluids.brines import brine
from coldwright.fluids.oils import oil, oil_names, suiting_oils
from coldwright.sources import source


def message(error):
    return str(error.value)


def test_unknown_brine_names_the_nearest():
    with pytest.raises(InputError) as error:
        brine("propylen glycol", 0.3)
    assert "received 'propylen glycol'" in message(error)
    assert "Nearest: propylene glycol" in error.value.faults[0].hint


@pytest.mark.parametrize(
    ("kind", "fraction", "basis", "text"),
    [
        ("propylene glycol", 0.75, "mass", "must be from 0 to 60 %; received 75 %"),
        ("ethanol", -0.1, "mass", "received -10 %"),
        ("calcium chloride", 0.2, "volume", "must be given by mass"),
        ("water", 0.1, "mass", "give 0 %"),
        ("ethanol", 0.3, "weight", "must be volume or mass; received 'weight'"),
        ("ethanol", float("nan"), "mass", "must be from 0"),
    ],
)
def test_fraction_out_of_range(kind, fraction, basis, text):
    with pytest.raises(InputError, match=text):
        brine(kind, fraction, basis)


def test_all_faults_together():
    with pytest.raises(InputError) as error:
        brine("sodium chloride", 0.5, "volume")
    assert [fault.field for fault in error.value.faults] == ["coolant.basis", "coolant.fraction"]


def test_a_brine_is_made_once():
    assert brine("Propylene  Glycol", 0.3) is brine("propylene glycol", 0.3)


def test_oil_names():
    assert oil_names() == ("mineral", "alkylbenzene", "ester")
    with pytest.raises(InputError, match="Nearest: mineral"):
        oil("mineral oil")
    with pytest.raises(InputError, match="R600a"):
        oil("ester").pair("R601a")
    assert oil("ester").pair("r-600a").refrigerant == "R600a"
    assert suiting_oils("R134a") == ("ester",)
    assert set(suiting_oils("R152a")) == {"ester", "alkylbenzene"}


def test_every_source_of_the_fluids_stands_in_the_list():
    from coldwright.fluids.brines import _MIXTURES
    from coldwright.fluids.oil_pairs import KINDS, PAIRS

    keys = {row.source for row in (*_MIXTURES.values(), *KINDS.values(), *PAIRS.values())}
    for key in keys:
        assert source(key).citation.endswith("]")
