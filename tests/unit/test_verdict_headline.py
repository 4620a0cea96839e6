"""The answer in one sentence, from a report and from the quick answer."""

from __future__ import annotations

import copy

import pytest

from coldwright.errors import InputError
from coldwright.verdict import report
from coldwright.verdict.glance import glance
from coldwright.verdict.headline import headline, how_sure
from support.assessed import assessed, changed


@pytest.fixture(scope="module")
def data():
    return report(assessed("cheese"))


def bent(data, **changes):
    """The report with figures put in by hand, by dotted path with `__`."""
    found = copy.deepcopy(data)
    for path, value in changes.items():
        *way, last = path.split("__")
        here = found
        for key in way:
            here = here[key]
        here[last] = value
    return found


@pytest.mark.parametrize(
    ("changes", "told"),
    [
        ({"cycling__run_fraction": 0.41}, "Holds 12 °C in a 20 °C room, running 41 % of the time."),
        (
            {"cycling__run_fraction": 0.58},
            "Holds 12 °C in a 20 °C room, but runs 58 % of the time; 50 % is allowed.",
        ),
        (
            {"cycling__run_fraction": 1.3, "running__air_C": 14.25},
            "Does not hold 12 °C in a 20 °C room: without a stop its air settles at 14.2 °C.",
        ),
        ({"running__reason": "too little charge"}, "There is no working state: too little charge."),
        (
            {"cycling__run_fraction": None, "cycling__while_on__reason": "too warm"},
            "There is no working state that holds 12 °C: too warm.",
        ),
        ({"faults": [1], "sentences": ["As entered it cannot be."]}, "As entered it cannot be."),
    ],
)
def test_the_sentence_of_each_outcome(data, changes, told):
    assert headline(bent(data, **changes), "si") == told


def test_the_interval_is_told_for_shares_and_for_air(data):
    share = {"cycling__run_fraction": 0.2, "cycling__run_fraction_half_width": 0.25}
    assert "between 0 % and 45 %" in how_sure(bent(data, **share), "si")
    air = {"cycling__run_fraction": 1.2, "running__air_C": 14.0, "running__air_half_width_K": 1.5}
    assert "between 12.5 °C and 15.5 °C" in how_sure(bent(data, **air), "si")
    assert how_sure(bent(data, cycling__run_fraction_half_width=None), "si") == ""
    assert how_sure(glance(assessed("cheese").build), "si") == ""


def test_the_quick_answer_has_the_reports_own_keys_and_refuses_too_much_charge(data):
    quick = glance(assessed("cheese").build)

    def keys(found, within):
        for key, value in found.items():
            assert key in within
            if isinstance(value, dict):
                keys(value, within[key])

    keys(quick, data)
    from coldwright.build import loads

    with pytest.raises(InputError) as fault:
        glance(loads(changed("cheese", ("28 g", "5 kg"))))
    assert fault.value.faults[0].field == "refrigerant.fill"
