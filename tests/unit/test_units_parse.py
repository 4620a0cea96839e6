"""What a maker may write, and what each form means."""

import pytest

from coldwright.units import Kind, parse_quantity

INCH, POUND, MERCURY, PSI = 0.0254, 0.45359237, 3386.389, 6894.757293168361
ATMOSPHERE = 101325.0


def read(text, kind, **more):
    return parse_quantity(text, kind, field="entry", **more)


@pytest.mark.parametrize(
    ("text", "absolute_Pa"),
    [
        ("10 psig", ATMOSPHERE + 10 * PSI),
        ("10psig", ATMOSPHERE + 10 * PSI),
        ("10 PSIG", ATMOSPHERE + 10 * PSI),
        ("10 psi gauge", ATMOSPHERE + 10 * PSI),
        ("10 psi (g)", ATMOSPHERE + 10 * PSI),
        ("-5 psig", ATMOSPHERE - 5 * PSI),
        ("25 psia", 25 * PSI),
        ("25 psi abs.", 25 * PSI),
        ("10 inHg vacuum", ATMOSPHERE - 10 * MERCURY),
        ("10 inHg vac", ATMOSPHERE - 10 * MERCURY),
        ("10 in Hg vac.", ATMOSPHERE - 10 * MERCURY),
        ("10 inches of mercury vacuum", ATMOSPHERE - 10 * MERCURY),
        ("10 inHg abs", 10 * MERCURY),
        ("20 kPa vacuum", ATMOSPHERE - 20000.0),
        ("500 micron", 66.6611937075),
        ("500 microns", 66.6611937075),
        ("500 µmHg", 66.6611937075),
        ("500 microns of mercury", 66.6611937075),
        ("1.5 bar(g)", ATMOSPHERE + 150000.0),
        ("1,5 bar (g)", ATMOSPHERE + 150000.0),
        ("1.5 barg", ATMOSPHERE + 150000.0),
        ("2 bar(a)", 200000.0),
        ("2 bara", 200000.0),
        ("2 bar", 200000.0),
        ("1013 mbar", 101300.0),
        ("170 kPa abs", 170000.0),
        ("170 kPa absolute", 170000.0),
        ("170 kPa(a)", 170000.0),
        ("170 kpa abs", 170000.0),
        ("0.17 MPa abs", 170000.0),
        ("70 kPa gauge", ATMOSPHERE + 70000.0),
        ("70 kPa(g)", ATMOSPHERE + 70000.0),
        ("70 kPag", ATMOSPHERE + 70000.0),
        ("900 Pa abs", 900.0),
        ("1 atm", ATMOSPHERE),
    ],
)
def test_pressure_for_an_absolute_and_a_gauge_entry(text, absolute_Pa):
    assert read(text, Kind.absolute_pressure).value == pytest.approx(absolute_Pa, rel=1e-9)
    gauge = read(text, Kind.gauge_pressure).value
    assert gauge == pytest.approx(absolute_Pa - ATMOSPHERE, rel=1e-9, abs=1e-6)


def test_gauge_reads_from_the_atmosphere_of_the_place():
    assert read("0 psig", Kind.absolute_pressure, atmosphere_Pa=84000.0).value == 84000.0
    assert read("84 kPa abs", Kind.gauge_pressure, atmosphere_Pa=84000.0).value == 0.0


@pytest.mark.parametrize(
    ("text", "pascal"),
    [("10 psi", 10 * PSI), ("10 psid", 10 * PSI), ("20 kPa", 2e4), ("1 in wc", 249.08891)],
)
def test_pressure_difference(text, pascal):
    assert read(text, Kind.pressure_difference).value == pytest.approx(pascal)


@pytest.mark.parametrize(
    "text",
    [
        "5 °C",
        "5 C",
        "5C",
        "5 c",
        "5 degC",
        "5 deg C",
        "5 degrees C",
        "5 celsius",
        "5 ℃",
        "5,0 °C",
        "41 °F",
        "41 F",
        "41F",
        "41 deg F",
        "41 ° F",
        "278.15 K",
        "278,15 K",
        "+5 °C",
    ],
)
def test_temperature(text):
    assert read(text, Kind.temperature).value == pytest.approx(278.15)


@pytest.mark.parametrize("text", ["-5 °C", "\u22125 °C", "\u20135 °C", "23 °F", "- 5 °C"])
def test_negative_temperature(text):
    assert read(text, Kind.temperature).value == pytest.approx(268.15)


@pytest.mark.parametrize(
    "text",
    [
        "5 K",
        "5 K difference",
        "5 °C difference",
        "5 degC diff",
        "5 C diff.",
        "5 C deg",
        "5 C°",
        "9 °F difference",
        "9 °F diff",
        "9 F deg",
        "9 F°",
        "9 delta °F",
        "9 Δ°F",
    ],
)
def test_temperature_difference(text):
    assert read(text, Kind.temperature_difference).value == pytest.approx(5.0)


@pytest.mark.parametrize(
    ("text", "kind", "half_width"),
    [
        ("5 °C ± 1 °C", Kind.temperature, 1.0),
        ("5 °C ± 1 K", Kind.temperature, 1.0),
        ("5 °C +/- 1", Kind.temperature, 1.0),
        ("5 ± 1 °C", Kind.temperature, 1.0),
        ("(5 ± 1) °C", Kind.temperature, 1.0),
        ("5 °C ± 1,8 °F", Kind.temperature, 1.0),
        ("41 °F ± 2 °F", Kind.temperature, 10.0 / 9.0),
        ("41 °F ± 2 °F diff", Kind.temperature, 10.0 / 9.0),
        ("9 °F diff ± 0.9 °F", Kind.temperature_difference, 0.5),
        ("10 psig ± 1 psi", Kind.absolute_pressure, PSI),
        ("10 psig ± 1 psig", Kind.gauge_pressure, PSI),
        ("10 ± 1 psig", Kind.gauge_pressure, PSI),
        ("10 psig ± 5 %", Kind.absolute_pressure, 0.5 * PSI),
        ("10 inHg vac ± 1 inHg", Kind.absolute_pressure, MERCURY),
        ("500 micron ± 50", Kind.absolute_pressure, 6.66611937075),
        ("100 W ± 10 %", Kind.power, 10.0),
        ("-100 W ± 10 %", Kind.heat_flow, 10.0),
        ("5 m ± 2 cm", Kind.length, 0.02),
        ("3/16 in ± 1/64 in", Kind.length, INCH / 64.0),
        ("40 % ± 5 %", Kind.ratio, 0.05),
        ("0.4 ± 0.05", Kind.ratio, 0.05),
        ("6 ± 2", Kind.number, 2.0),
        ("6 ± 50 %", Kind.number, 3.0),
        ("5 m", Kind.length, 0.0),
        ("5 m ± 0", Kind.length, 0.0),
    ],
)
def test_half_width_is_two_standard_uncertainties(text, kind, half_width):
    assert read(text, kind).standard_uncertainty == pytest.approx(half_width / 2.0)


@pytest.mark.parametrize(
    ("text", "inches"),
    [
        ("3/16 in", 0.1875),
        ('3/16"', 0.1875),
        ("1 1/4 in", 1.25),
        ("1-1/4 in", 1.25),
        ("1½ in", 1.5),
        ("¾ inch", 0.75),
        ("-1 1/4 in", -1.25),
        ("1' 6\"", 18.0),
        ("1'6\"", 18.0),
        ("1\u2032 6\u2033", 18.0),
        ("1' 6 1/2\"", 18.5),
        ("1 ft 6 in", 18.0),
        ("1ft 6in", 18.0),
        ("2 feet", 24.0),
        ("2 ft.", 24.0),
        (".5 in", 0.5),
        ("1 yd", 36.0),
    ],
)
def test_inches(text, inches):
    assert read(text, Kind.length).value == pytest.approx(inches * INCH)


@pytest.mark.parametrize(
    ("text", "metres"),
    [
        ("60 mm", 0.06),
        ("1,5 mm", 0.0015),
        ("1.5e-3 m", 0.0015),
        ("6 cm", 0.06),
        ("60 MM", 0.06),
        ("60 millimetres", 0.06),
        ("5 µm", 5e-6),
        ("5 \u03bcm", 5e-6),
        ("5 micron", 5e-6),
        ("60\u00a0mm", 0.06),
    ],
)
def test_metric_lengths(text, metres):
    assert read(text, Kind.length).value == pytest.approx(metres)


def test_a_comma_is_a_decimal_comma_and_a_doubtful_one_is_said():
    assert read("1,5 mm", Kind.length).remark == ""
    assert read("0,035 W/mK", Kind.conductivity).remark == ""
    doubtful = read("1,234 mm", Kind.length)
    assert doubtful.value == pytest.approx(1.234e-3)
    assert doubtful.remark == "'1,234' was read with a decimal comma, as 1.234"


@pytest.mark.parametrize(
    ("text", "kind", "value"),
    [
        ("8 W/m2K", Kind.film_coefficient, 8.0),
        ("8 W/(m² K)", Kind.film_coefficient, 8.0),
        ("8 W/(m2·K)", Kind.film_coefficient, 8.0),
        ("8 W/m²/K", Kind.film_coefficient, 8.0),
        ("8 W/m^2 K", Kind.film_coefficient, 8.0),
        ("8 W per m2 K", Kind.film_coefficient, 8.0),
        ("1 Btu/(h ft2 F)", Kind.film_coefficient, 5.678263341),
        ("1 Btu/hr·ft²·°F", Kind.film_coefficient, 5.678263341),
        ("1 BTU/hr/sq ft/deg F", Kind.film_coefficient, 5.678263341),
        ("1 Btu/hft2F", Kind.film_coefficient, 5.678263341),
        ("35 mW/mK", Kind.conductivity, 0.035),
        ("0.035 W/m K", Kind.conductivity, 0.035),
        ("1 Btu in/(h ft2 F)", Kind.conductivity, 0.1442278889),
        ("1 Btu/hftF", Kind.linear_conductance, 1.730734666),
        ("3.6 kJ/kgK", Kind.specific_heat, 3600.0),
        ("1 Btu/lbF", Kind.specific_heat, 4186.8),
        ("30 kg/m3", Kind.density, 30.0),
        ("205 Btuh", Kind.heat_flow, 60.07956939),
        ("1/8 hp", Kind.power, 93.21248395),
        ("480 Wh/day", Kind.heat_flow, 20.0),
        ("0.8 kWh", Kind.energy, 2.88e6),
        ("35 mL", Kind.volume, 3.5e-5),
        ("4.5 cc", Kind.volume, 4.5e-6),
        ("4.5 cm³", Kind.volume, 4.5e-6),
        ("30 cubic meters", Kind.volume, 30.0),
        ("2 cu in", Kind.volume, 2 * INCH**3),
        ("12 fl oz", Kind.volume, 3.548823548e-4),
        ("12 fl. oz.", Kind.volume, 3.548823548e-4),
        ("12 floz", Kind.volume, 3.548823548e-4),
        ("3 sq ft", Kind.area, 3 * (12 * INCH) ** 2),
        ("1.4 oz", Kind.mass, 1.4 * POUND / 16),
        ("3 lb 4 oz", Kind.mass, 3.25 * POUND),
        ("40 g", Kind.mass, 0.04),
        ("10 cfm", Kind.volume_flow, 4.719474432e-3),
        ("0.6 kg/h", Kind.mass_flow, 0.6 / 3600.0),
        ("15 min", Kind.time, 900.0),
        ("1 day", Kind.time, 86400.0),
        ("800 mA", Kind.current, 0.8),
        ("230 volts", Kind.voltage, 230.0),
        ("50 Hz", Kind.frequency, 50.0),
        ("15 deg", Kind.angle, 0.2617993878),
        ("15°", Kind.angle, 0.2617993878),
        ("0.2 m/s", Kind.velocity, 0.2),
        ("40 %", Kind.ratio, 0.4),
        ("40 per cent", Kind.ratio, 0.4),
        ("0.4", Kind.ratio, 0.4),
        (0.4, Kind.ratio, 0.4),
        (6, Kind.number, 6.0),
        ("6", Kind.number, 6.0),
    ],
)
def test_other_kinds(text, kind, value):
    quantity = read(text, kind)
    assert quantity.value == pytest.approx(value, rel=1e-9)
    assert quantity.kind is kind
    assert quantity.text == str(text)
