"""Colours: paper, ink and copper as properties that a page may set, and the temperature scale.

The scale is a straight line in OKLab (B. Ottosson 2020, "A perceptual color space for image
processing"): equal steps of temperature are equal steps to the eye. It goes from blue to straw, the
axis that the usual colour blindness keeps, and gets lighter all the way, so it survives a grey
print. The figure is always written beside the colour.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

Lab = tuple[float, float, float]

# Ends of the scale [°C]; what lies beyond has the colour of the end.
COLDEST_C, WARMEST_C, STEP_C = -30.0, 60.0, 2.0
# OKLab of both ends, on light paper and on dark.
_LIGHT: tuple[Lab, Lab] = ((0.60, -0.018, -0.095), (0.93, 0.008, 0.078))
_DARK: tuple[Lab, Lab] = ((0.32, 0.0, -0.085), (0.61, 0.0, 0.078))

_PAINTS: Mapping[str, tuple[str, str]] = {
    # property: on light paper, on dark
    "paper": ("#f7f2e6", "#1f1c18"),
    "ink": ("#26221c", "#ece5d6"),
    "soft": ("#5d564b", "#b8af9f"),
    "rule": ("#8d8474", "#8b8273"),
    "faint": ("#e4dac6", "#38332b"),
    "copper": ("#b0532a", "#e08a5c"),
}


@dataclass(frozen=True)
class Palette:
    """The paints of one drawing, each as `var(--name, fallback)`."""

    dark: bool = False

    def __getattr__(self, name: str) -> str:
        """The paint called `name`. Raises AttributeError when there is none."""
        if name not in _PAINTS:
            raise AttributeError(name)
        return f"var(--{name}, {_PAINTS[name][int(self.dark)]})"

    def temperature(self, celsius: float) -> str:
        """The paint of a temperature [°C]: a property by its step, with its fallback."""
        step = temperature_step(celsius)
        return f"var(--temperature-{step}, {_step_colour(step, self.dark)})"


def temperature_step(celsius: float) -> int:
    """Number of the scale's step for a temperature [°C], 0 at its cold end."""
    held = min(max(celsius, COLDEST_C), WARMEST_C)
    return round((held - COLDEST_C) / STEP_C)


def temperature_properties(*, dark: bool = False) -> dict[str, str]:
    """The scale as properties of a style sheet: name to colour, coldest first."""
    steps = temperature_step(WARMEST_C)
    return {f"--temperature-{step}": _step_colour(step, dark) for step in range(steps + 1)}


def paint_properties(*, dark: bool = False) -> dict[str, str]:
    """The paints as properties of a style sheet: name to colour."""
    return {f"--{name}": pair[int(dark)] for name, pair in _PAINTS.items()}


def temperature_lab(celsius: float, *, dark: bool = False) -> Lab:
    """OKLab of a temperature [°C] on the scale."""
    cold, warm = _DARK if dark else _LIGHT
    held = min(max(celsius, COLDEST_C), WARMEST_C)
    share = (held - COLDEST_C) / (WARMEST_C - COLDEST_C)
    first, second, third = (a + share * (b - a) for a, b in zip(cold, warm, strict=True))
    return (first, second, third)


def hexadecimal(lab: Lab) -> str:
    """`#rrggbb` of an OKLab colour; what sRGB cannot show is held at its edge."""
    return "#" + "".join(f"{round(255.0 * _encoded(each)):02x}" for each in _linear_rgb(lab))


def lab_of(colour: str) -> Lab:
    """OKLab of `#rrggbb`."""
    parts = (int(colour[place : place + 2], 16) / 255.0 for place in (1, 3, 5))
    red, green, blue = (_decoded(each) for each in parts)
    long = (0.4122214708 * red + 0.5363325363 * green + 0.0514459929 * blue) ** (1 / 3)
    middle = (0.2119034982 * red + 0.6806995451 * green + 0.1073969566 * blue) ** (1 / 3)
    short = (0.0883024619 * red + 0.2817188376 * green + 0.6299787005 * blue) ** (1 / 3)
    return (
        0.2104542553 * long + 0.7936177850 * middle - 0.0040720468 * short,
        1.9779984951 * long - 2.4285922050 * middle + 0.4505937099 * short,
        0.0259040371 * long + 0.7827717662 * middle - 0.8086757660 * short,
    )


def _linear_rgb(lab: Lab) -> Lab:
    lightness, a, b = lab
    long = (lightness + 0.3963377774 * a + 0.2158037573 * b) ** 3
    middle = (lightness - 0.1055613458 * a - 0.0638541728 * b) ** 3
    short = (lightness - 0.0894841775 * a - 1.2914855480 * b) ** 3
    return (
        4.0767416621 * long - 3.3077115913 * middle + 0.2309699292 * short,
        -1.2684380046 * long + 2.6097574011 * middle - 0.3413193965 * short,
        -0.0041960863 * long - 0.7034186147 * middle + 1.7076147010 * short,
    )


def _encoded(linear: float) -> float:
    """The sRGB curve (IEC 61966-2-1)."""
    held = min(max(linear, 0.0), 1.0)
    curve = 1.055 * held ** (1 / 2.4) - 0.055
    return curve if held > 0.0031308 else 12.92 * held


def _decoded(encoded: float) -> float:
    return ((encoded + 0.055) / 1.055) ** 2.4 if encoded > 0.04045 else encoded / 12.92


def _step_colour(step: int, dark: bool) -> str:
    return hexadecimal(temperature_lab(COLDEST_C + STEP_C * step, dark=dark))


def temperature_declarations(*, dark: bool = False) -> str:
    """The scale as CSS declarations, to stand in a rule of the page for its dark or light look."""
    return " ".join(f"{name}: {each};" for name, each in temperature_properties(dark=dark).items())
