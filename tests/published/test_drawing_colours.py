"""Colours and letters of the drawings against what is published of them."""

from __future__ import annotations

from itertools import pairwise

import numpy as np
import pytest

from coldwright.sheet.drawing.colours import (
    COLDEST_C,
    WARMEST_C,
    hexadecimal,
    lab_of,
    paint_properties,
    temperature_lab,
    temperature_properties,
    temperature_step,
)
from coldwright.sheet.drawing.text_size import text_width

# CSS Color Module Level 4, named colours in OKLab [read, as reference pages list them].
OKLAB = [
    ("#ff0000", (0.6280, 0.2249, 0.1258)),
    ("#008000", (0.5198, -0.1403, 0.1077)),
    ("#00ff00", (0.8664, -0.2339, 0.1795)),
    ("#0000ff", (0.4520, -0.0324, -0.3116)),
    ("#ffff00", (0.9680, -0.0714, 0.1986)),
    ("#ffffff", (1.0, 0.0, 0.0)),
]
# Adobe's metrics of Times-Roman, thousandths of the size [from memory].
TIMES = {
    **dict.fromkeys("0123456789", 500),
    **dict(zip("abcdefghijklm", (444, 500, 444, 500, 444, 333, 500, 500, 278, 278, 500, 278, 778),
               strict=True)),
    **dict(zip("nopqrstuvwxyz", (500, 500, 500, 500, 333, 389, 278, 500, 500, 722, 500, 500, 444),
               strict=True)),
    **dict(zip("ABCDEFGHIJKLM", (722, 667, 667, 722, 611, 556, 722, 722, 333, 389, 722, 611, 889),
               strict=True)),
    **dict(zip("NOPQRSTUVWXYZ", (722, 722, 556, 722, 667, 556, 611, 722, 722, 944, 722, 722, 611),
               strict=True)),
    **dict(zip(" .,:;-()/%°", (250, 250, 250, 278, 278, 333, 333, 333, 278, 833, 400),
               strict=True)),
}  # fmt: skip


@pytest.mark.parametrize(("colour", "lab"), OKLAB)
def test_oklab_of_named_colours_there_and_back(colour, lab):
    assert lab_of(colour) == pytest.approx(lab, abs=1.5e-4)
    assert hexadecimal(lab_of(colour)) == colour


@pytest.mark.parametrize("dark", [False, True])
def test_equal_steps_of_temperature_are_equal_steps_to_the_eye(dark):
    # Ottosson (2020): distance in OKLab is how different two colours look.
    places = np.array([temperature_lab(t, dark=dark) for t in np.linspace(COLDEST_C, WARMEST_C)])
    steps = np.linalg.norm(np.diff(places, axis=0), axis=1)
    assert steps == pytest.approx(np.full_like(steps, steps.mean()), rel=1e-9)
    # As drawn, to the last bit of each colour: within 0.004, under what can be told apart.
    drawn = [lab_of(colour) for colour in temperature_properties(dark=dark).values()]
    meant = [temperature_lab(COLDEST_C + 2.0 * at, dark=dark) for at in range(len(drawn))]
    assert np.array(drawn) == pytest.approx(np.array(meant), abs=4e-3)


# Viénot, Brettel and Mollon (1999): linear RGB to cone signals, and what is left of them for the
# two usual colour blindnesses [from memory].
CONES = np.array([
    [17.8824, 43.5161, 4.11935],
    [3.45565, 27.1554, 3.86714],
    [0.0299566, 0.184309, 1.46709],
])  # fmt: skip
SEEN = {
    "no red cones": np.array([[0.0, 2.02344, -2.52581], [0, 1, 0], [0, 0, 1]]),
    "no green cones": np.array([[1, 0, 0], [0.494207, 0.0, 1.24827], [0, 0, 1]]),
}


def linear(colour):
    parts = np.array([int(colour[at : at + 2], 16) / 255.0 for at in (1, 3, 5)])
    return np.where(parts > 0.04045, ((parts + 0.055) / 1.055) ** 2.4, parts / 12.92)


def as_seen(colour, blindness):
    seen = np.linalg.inv(CONES) @ SEEN[blindness] @ CONES @ linear(colour)
    encoded = np.clip(seen, 0.0, 1.0)
    curve = np.where(encoded > 0.0031308, 1.055 * encoded ** (1 / 2.4) - 0.055, 12.92 * encoded)
    return np.array(lab_of("#" + "".join(f"{round(255 * each):02x}" for each in curve)))


@pytest.mark.parametrize("dark", [False, True])
@pytest.mark.parametrize("blindness", SEEN)
def test_the_scale_keeps_its_steps_for_the_colour_blind(blindness, dark):
    colours = list(temperature_properties(dark=dark).values())
    every_10_K = colours[::5]
    plain = [np.linalg.norm(np.subtract(lab_of(a), lab_of(b))) for a, b in pairwise(every_10_K)]
    seen = [
        np.linalg.norm(as_seen(a, blindness) - as_seen(b, blindness))
        for a, b in pairwise(every_10_K)
    ]
    assert min(np.array(seen) / np.array(plain)) > 0.8
    assert min(seen) > 0.03


def luminance(colour):
    """Relative luminance (WCAG 2.2)."""
    return float(np.dot([0.2126, 0.7152, 0.0722], linear(colour)))


@pytest.mark.parametrize("dark", [False, True])
def test_warmer_is_lighter_so_that_a_grey_print_tells_it(dark):
    shades = [luminance(each) for each in temperature_properties(dark=dark).values()]
    assert all(cold < warm for cold, warm in pairwise(shades))


@pytest.mark.parametrize("dark", [False, True])
def test_contrast_of_the_paints(dark):
    # WCAG 2.2, 1.4.3: text 4.5 to 1; 1.4.11: lines that carry meaning 3 to 1.
    paints = {name: luminance(each) for name, each in paint_properties(dark=dark).items()}

    def contrast(name, ground):
        high, low = sorted((paints[name], ground), reverse=True)
        return (high + 0.05) / (low + 0.05)

    for ground in (paints["--paper"], paints["--faint"]):
        for text in ("--ink", "--soft"):
            assert contrast(text, ground) >= 4.5
        assert contrast("--copper", ground) >= 3.0
    assert contrast("--rule", paints["--paper"]) >= 3.0
    for colour in temperature_properties(dark=dark).values():
        assert contrast("--ink", luminance(colour)) >= 3.0


@pytest.mark.parametrize("letter", TIMES)
def test_letters_are_reckoned_at_least_as_wide_as_a_usual_serif(letter):
    assert text_width(letter, 1000.0) >= TIMES[letter]


def test_but_not_much_wider():
    text = "brine vessel, painted, 0.5 mm of frost; capillary soldered to it over 1.2 m of 1.9 m"
    true = sum(TIMES[letter] for letter in text)
    assert true < text_width(text, 1000.0) < 1.45 * true


def test_what_lies_beyond_the_scale_has_its_end():
    last = len(temperature_properties()) - 1
    assert [temperature_step(t) for t in (-80.0, COLDEST_C, WARMEST_C, 300.0)] == [0, 0, last, last]
