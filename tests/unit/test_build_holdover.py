"""Entries of a holdover: its sections, its filling and the filling's strength."""

from __future__ import annotations

import pytest

from coldwright.build import loads
from coldwright.build.translation.box import box_of
from coldwright.errors import InputError
from coldwright.parts.cold_side.holdover import Holdover
from support.assessed import changed

FILLING = 'filling = "propylene glycol"'
FRACTION = 'fraction = "10 %"\nbasis = "mass"'
PURE = ((FILLING, 'filling = "{}"'), (FRACTION, ""))


def stores(*changes: tuple[str, str]) -> Holdover:
    store = box_of(loads(changed("holdover", *changes))).cold_side
    assert isinstance(store, Holdover)
    return store


def pure(name: str) -> tuple[tuple[str, str], ...]:
    return (PURE[0][0], PURE[0][1].format(name)), PURE[1]


def faults(*changes: tuple[str, str]) -> dict[str, str]:
    with pytest.raises(InputError) as caught:
        loads(changed("holdover", *changes))
    assert all(fault.line for fault in caught.value.faults)
    return {fault.field: f"{fault.message} {fault.hint}" for fault in caught.value.faults}


def test_the_file_becomes_its_part():
    store = stores()
    assert store.filling.name == "propylene glycol"
    assert store.brine.mass_fraction == pytest.approx(0.10)
    assert store.state_of_charge == 0.5
    assert store.pitch == pytest.approx(0.0134, abs=1e-4)
    assert store.coil_form == "serpentine"


@pytest.mark.parametrize("name", ["water", "Potassium Chloride  eutectic"])
def test_a_pure_filling_needs_no_fraction(name):
    assert stores(*pure(name)).filling.name == " ".join(name.lower().split())


def test_what_is_left_out_is_assumed():
    build = loads(changed("holdover", ('state_of_charge = "50 %"', ""), ('basis = "mass"', "")))
    told = {entry.field: entry.text for entry in build.assumed}
    assert told["cold_side.holdover.state_of_charge"] == "50 %"
    assert told["cold_side.holdover.basis"] == "volume"
    assert "thermostat.bulb" not in told
    assert loads(changed("holdover", ('bulb = "vessel well"', ""))).thermostat.bulb == "vessel well"


@pytest.mark.parametrize(
    ("changes", "field", "message"),
    [
        (((FILLING, 'filling = "propylen glycol"'),), "holdover.filling", "'propylene glycol'"),
        (((FILLING, ""),), "holdover.filling", "must be given"),
        (((FRACTION, ""),), "holdover.fraction", "must be given for a filling of propylene glycol"),
        (((FILLING, 'filling = "water"'),), "holdover.fraction", "no meaning for water"),
        (((FRACTION, 'fraction = "75 %"'),), "holdover.fraction", "from 0 to"),
        (((FRACTION, 'fraction = "0 %"\nbasis = "mass"'),), "holdover.fraction", "at least 1 %"),
        (((FRACTION, 'fraction = "10"'),), "holdover.fraction", "at most 95 %"),
        (
            ((FILLING, 'filling = "sodium chloride"'), (FRACTION, 'fraction = "23 %"')),
            "holdover.fraction",
            "no ice to give",
        ),
        (
            ((FILLING, 'filling = "calcium chloride"'), ('basis = "mass"', 'basis = "volume"')),
            "holdover.basis",
            "by mass",
        ),
        (
            (('state_of_charge = "50 %"', 'state_of_charge = "150 %"'),),
            "holdover.state_of_charge",
            "at most 100 %",
        ),
        ((("[cold_side.tube]", '[cold_side.brine]\nkind = "water"\n[cold_side.tube]'),), "brine",
         "cannot stand beside a holdover"),
        ((('kind = "holdover"', 'kind = "vessel"'),), "holdover", "cannot stand beside a vessel"),
    ],
)  # fmt: skip
def test_a_filling_that_cannot_be(changes, field, message):
    assert message in faults(*changes)[f"cold_side.{field}"]


def test_a_holdover_needs_tank_and_filling():
    text = changed("holdover")
    start, end = text.index("[cold_side.holdover]"), text.index("[cold_side.fins]")
    with pytest.raises(InputError, match=r"Section cold_side\.holdover must be given"):
        loads(text[:start] + text[end:])
