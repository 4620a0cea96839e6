"""The glossary: complete entries, bounds held, faults in plain words."""

import math
import re

import pytest

from coldwright.errors import InputError
from coldwright.terms import Term, check, read, term, terms
from coldwright.units import Kind, parse_quantity


@pytest.mark.parametrize("entry", terms().values(), ids=lambda entry: entry.key)
def test_every_term_is_complete(entry):
    assert re.fullmatch(r"[a-z_]+(\.[a-z_]+)+", entry.key)
    assert re.fullmatch(r"[A-Z][A-Za-z \-]+", entry.name)
    assert entry.meaning.endswith(".")
    assert entry.least < entry.greatest
    assert math.isfinite(entry.least)
    assert math.isfinite(entry.greatest)
    assert not (entry.usual_uncertainty and entry.usual_relative_uncertainty)
    # A share of a temperature has no meaning.
    assert entry.kind is not Kind.temperature or entry.usual_relative_uncertainty == 0.0
    # What the message shows as the bound is text that the parser reads.
    for system in ("si", "shop"):
        bounds = re.findall(r"(?:than|least|most) (-?\d.*?)(?: and|$)", entry.bounds_text(system))
        assert len(bounds) == 2
        for bound in bounds:
            assert math.isfinite(parse_quantity(bound, entry.kind, field=entry.key).value)


@pytest.mark.parametrize("entry", terms().values(), ids=lambda entry: entry.key)
def test_bounds_are_held(entry):
    span = entry.greatest - entry.least
    assert check(entry.key, entry.least - 0.01 * span) is not None
    assert check(entry.key, entry.greatest + 0.01 * span) is not None
    assert (check(entry.key, entry.least) is None) is not entry.least_excluded
    assert check(entry.key, entry.greatest) is None
    for impossible in (math.nan, math.inf, -math.inf):
        assert check(entry.key, impossible) is not None


def test_names_tell_terms_apart():
    names = [entry.name for entry in terms().values()]
    assert len(set(names)) == len(names)


def test_the_glossary_cannot_be_changed_by_a_reader():
    with pytest.raises(TypeError):
        terms()["new"] = term("site.altitude")


def test_unknown_term():
    with pytest.raises(KeyError):
        term("site.colour")


def test_sections():
    sections = {entry.section for entry in terms().values()}
    assert {"site", "targets", "cabinet", "cold_side", "compressor", "condenser"} <= sections
    assert term("cabinet.layer.thickness").section == "cabinet"


@pytest.mark.parametrize(
    ("key", "value", "more", "sentence"),
    [
        (
            "cabinet.layer.thickness",
            -0.05,
            {"subject": "Wall thickness of face 'back'", "received": "'-2 in'", "system": "shop"},
            "Wall thickness of face 'back' must be greater than 0 in; received '-2 in'. "
            "(is the sign a slip?)",
        ),
        (
            "cabinet.layer.thickness",
            2.5,
            {},
            "Layer thickness must be at most 1000 mm; received 2.5 m.",
        ),
        (
            "site.relative_humidity",
            40.0,
            {},
            "Relative humidity of the room must be at most 100 %; received 4000 %. "
            "(for 40 per cent write '40 %')",
        ),
        (
            "site.room_temperature",
            20.0,
            {"received": "'20 K'"},
            "Room temperature must be at least -10.0 °C; received '20 K'. "
            "(20 K is 20 kelvin; for Celsius write '20 °C')",
        ),
        (
            "cold_side.fins.count",
            3.5,
            {},
            "Number of fins must be a whole number, at least 0 and at most 1000; received 3.5.",
        ),
        ("capillary.bore", math.nan, {}, "Capillary bore must be finite; received nan."),
    ],
)
def test_the_sentence(key, value, more, sentence):
    fault = check(key, value, **more)
    assert str(fault) == sentence
    assert fault.field == key


def test_read_parses_and_checks():
    quantity = read("capillary.bore", "0.031 in ± 0.001 in")
    assert quantity.value == pytest.approx(0.031 * 0.0254)
    assert quantity.standard_uncertainty == pytest.approx(0.0005 * 0.0254)
    with pytest.raises(InputError) as caught:
        read("capillary.bore", "31 in", field="capillary.bore", subject="The bore")
    (fault,) = caught.value.faults
    assert fault.message == "The bore must be at most 4 mm; received '31 in'."
    with pytest.raises(InputError, match="Capillary bore must be a length"):
        read("capillary.bore", "0.8")


def test_usual_uncertainty():
    assert term("site.room_temperature").usual(293.15) == 1.0
    assert term("cabinet.layer.conductivity").usual(0.03) == pytest.approx(0.0024)
    assert term("compressor.voltage").usual(230.0) == 0.0


def test_a_key_that_stands_twice_is_refused(monkeypatch):
    from coldwright.terms import glossary, site

    double = Term("site.altitude", "Altitude", "Again.", Kind.length)
    monkeypatch.setattr(site, "TERMS", (*site.TERMS, double))
    with pytest.raises(ValueError, match=r"'site\.altitude' stands twice"):
        glossary.terms.__wrapped__()
