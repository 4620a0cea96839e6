"""Refrigerant in oil against published isotherms (mole fractions turned into mass fractions)."""

import numpy as np
import pytest
from CoolProp.CoolProp import PropsSI

from coldwright.fluids.oils import oil

MOLAR_MASS = {"R134a": 102.03, "R152a": 66.05, "R600a": 58.12, "R12": 120.91, "R22": 86.47}
COOLPROP = {"R600a": "IsoButane"}

GREBNER = "Grebner 1992, ACRC TR-13"
VAMLING = "Wahlstrom and Vamling 1999 and 2000, J. Chem. Eng. Data 44 and 45"
TAKIGAWA = "Takigawa, Sandler and Yokozeki 2002, Int. J. Refrigeration 25, 1014"
MARCELINO = "Marcelino Neto and Barbosa 2008, Int. J. Refrigeration 31, 34"

# oil, refrigerant, molar mass of the oil sample g/mol, [(K, Pa, mole fraction)], source
ISOTHERMS = [
    (
        "mineral",
        "R12",
        325.0,
        [(283.15, 125640, 0.2216), (303.15, 197080, 0.2145), (323.15, 695220, 0.5190)],
        GREBNER + ", naphthenic oil",
    ),
    (
        "mineral",
        "R12",
        500.0,
        [(303.15, 487160, 0.5993), (313.15, 301360, 0.3109), (333.15, 911130, 0.5811)],
        GREBNER + ", paraffinic oil",
    ),
    (
        "ester",
        "R134a",
        590.0,
        [(293.15, 208030, 0.4047), (313.15, 649880, 0.6347), (333.15, 468840, 0.3600)],
        GREBNER,
    ),
    (
        "ester",
        "R134a",
        640.9,
        [(303.0, 214200, 0.3244), (323.0, 118300, 0.1275), (343.0, 384100, 0.2529)],
        VAMLING + ", PEB8",
    ),
    (
        "ester",
        "R152a",
        640.9,
        [(303.0, 100700, 0.2053), (323.0, 134700, 0.1794), (343.0, 168100, 0.1534)],
        VAMLING + ", PEB8",
    ),
    (
        "ester",
        "R152a",
        472.6,
        [(303.0, 77000, 0.1532), (323.0, 225000, 0.2636), (363.0, 363500, 0.2083)],
        VAMLING + ", pentaerythritol tetrapentanoate",
    ),
    (
        "ester",
        "R600a",
        290.0,
        [(293.15, 77613, 0.2288), (313.15, 97110, 0.1802), (333.15, 139367, 0.1683)],
        MARCELINO + "; molar mass of the oil from memory",
    ),
    (
        "alkylbenzene",
        "R134a",
        320.0,
        [(313.15, 599000, 0.222), (333.15, 412000, 0.118), (353.15, 1036000, 0.226)],
        TAKIGAWA + ", 15 mm2/s; molar mass from memory",
    ),
    (
        "alkylbenzene",
        "R134a",
        360.0,
        [(313.15, 598000, 0.211), (333.15, 949000, 0.259), (353.15, 991000, 0.212)],
        TAKIGAWA + ", 32 mm2/s; molar mass from memory",
    ),
]


@pytest.mark.parametrize(("kind", "refrigerant", "molar_mass", "points", "source"), ISOTHERMS)
def test_isotherms(kind, refrigerant, molar_mass, points, source):
    temperature, pressure, mole = (np.array(column) for column in zip(*points, strict=True))
    saturation = PropsSI("P", "T", temperature, "Q", 0, COOLPROP.get(refrigerant, refrigerant))
    light = mole * MOLAR_MASS[refrigerant]
    measured = light / (light + (1 - mole) * molar_mass)
    subject = oil(kind)
    found = subject.solubility(refrigerant, pressure / saturation, temperature)
    # One family of oil stands for many: each sample must lie within two of the stated standard
    # uncertainties, which were set from the scatter between samples.
    spread = subject.pair(refrigerant).relative_uncertainty
    np.testing.assert_allclose(found, measured, rtol=2 * spread)


def test_oil_densities():
    """Grebner 1992: naphthenic 54.05 lb/ft3 at 104 °F. Burton 1999: ester. Third from memory."""
    assert oil("mineral").density(313.15) == pytest.approx(865.8, rel=0.005)
    assert oil("ester").density(313.15) == pytest.approx(963.6, rel=0.001)
    assert oil("alkylbenzene").density(288.15) == pytest.approx(870.0, rel=0.01)


def test_only_some_oils_take_r134a():
    """R134a is not miscible with mineral oil (trade knowledge since 1990; common practice)."""
    at_rest = {kind: float(oil(kind).solubility("R134a", 0.9, 273.15)) for kind in
               ("mineral", "alkylbenzene", "ester")}  # fmt: skip
    assert at_rest["mineral"] < at_rest["alkylbenzene"] < at_rest["ester"]
    assert at_rest["mineral"] < 0.1
    assert not oil("mineral").pair("R134a").suits
    assert oil("ester").pair("R134a").suits
