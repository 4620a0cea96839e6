"""Unit text as makers write it, turned into the registry's spelling.

`W/m2K`, `W/(m² K)` and `W/m²/K` are one: all that follows a slash divides, brackets or not.
"""

from __future__ import annotations

import re
from difflib import get_close_matches
from functools import cache

# Registry name: spellings. Case is free unless two units differ by it alone (see `_EXACT`).
_SPELLINGS = {
    "celsius": "°C C celsius",
    "fahrenheit": "°F F fahrenheit",
    "kelvin": "K °K kelvin kelvins",
    "millimeter": "mm millimetre millimetres millimeter millimeters",
    "centimeter": "cm centimetre centimetres centimeter centimeters",
    "meter": "m metre metres meter meters",
    "micrometer": "um",
    "inch": 'in in. inch inches "',
    "foot": "ft ft. foot feet '",
    "yard": "yd yard yards",
    "second": "s sec secs second seconds",
    "minute": "min mins minute minutes",
    "hour": "h hr hrs hour hours",
    "day": "d day days",
    "gram": "g gm gram grams gramme grammes",
    "milligram": "mg milligram milligrams",
    "kilogram": "kg kilo kilos kilogram kilograms",
    "tonne": "t tonne tonnes",
    "ounce": "oz oz. ounce ounces",
    "pound": "lb lb. lbs lbm pound pounds",
    "liter": "L l litre litres liter liters",
    "milliliter": "mL ml cc millilitre millilitres milliliter milliliters",
    "gallon": "gal gallon gallons",
    "quart": "qt quart quarts",
    "fluid_ounce": "floz",
    "hertz": "Hz hertz",
    "kilohertz": "kHz",
    "revolution_per_minute": "rpm",
    "pound_force": "lbf",
    "pascal": "Pa pascal pascals",
    "hectopascal": "hPa",
    "kilopascal": "kPa",
    "megapascal": "MPa",
    "millibar": "mbar",
    "bar": "bar bars",
    "atmosphere": "atm",
    "torr": "torr",
    "psi": "psi",
    "inch_mercury": "inHg",
    "centimeter_mercury": "cmHg",
    "millimeter_mercury": "mmHg",
    "micrometer_mercury": "umHg",
    "inch_water": "inWater",
    "millimeter_water": "mmWater",
    "joule": "J joule joules",
    "kilojoule": "kJ",
    "megajoule": "MJ",
    "watt": "W watt watts",
    "milliwatt": "mW",
    "kilowatt": "kW",
    "watt_hour": "Wh",
    "kilowatt_hour": "kWh",
    "btu": "Btu",
    "kilocalorie": "kcal",
    "horsepower": "hp",
    "cubic_foot_per_minute": "cfm",
    "ampere": "A amp amps ampere amperes",
    "milliampere": "mA",
    "volt": "V volt volts",
    "millivolt": "mV",
    "kilovolt": "kV",
    "degree_angle": "deg ° degree degrees",
    "radian": "rad radian radians",
}
# A milli and a mega differ by case alone, so case counts here; and `lbF` is a pound times a °F.
_EXACT = frozenset({"MPa", "MJ", "mW", "mA", "mV", "mg", "lbf"})

_REWRITES = tuple(
    (re.compile(pattern, flags=re.IGNORECASE), replacement)
    for pattern, replacement in (
        (r"\u00b5|\u03bc", "u"),  # the micro sign and the Greek letter
        (r"\u00b2|\^2|\*\*2", "2"),
        (r"\u00b3|\^3|\*\*3", "3"),
        (r"\u2103", "°C"),
        (r"\u2109", "°F"),
        (r"\bdeg(?:ree)?s?\.?\s*(celsius|fahrenheit|[cfk])\b", r"°\1"),
        (r"°\s*c(?:elsius)?\b", "°C"),
        (r"°\s*f(?:ahrenheit)?\b", "°F"),
        (r"\b(in|mm|cm|u?m)(?:ch|ches)?\.?\s*(?:of\s*)?(?:hg|mercury)\b", r"\1Hg"),
        (r"\b(in|mm)(?:ch|ches)?\.?\s*(?:of\s*)?(?:h2o|w\.?c\.?|water)\b", r"\1Water"),
        (r"\b(?:us\s*)?fl(?:uid)?\.?\s*(?:oz|ounces?)\b\.?", "floz"),
        (r"\b(?:square|sq)\.?\s*([a-z]+)", r"\g<1>2"),
        (r"\b(?:cubic|cu)\.?\s*([a-z]+)", r"\g<1>3"),
        (r"\bmicrons?\b", "um"),
        (r"\bbtuh\b", "Btu/h"),
        (r"\s+per\s+", "/"),
        (r"[*\u00b7\u22c5\u00d7()\[\]]", " "),
    )
)
_ATOM = re.compile(r"""\s*(°?[A-Za-z]+\.?|["'°])\s?([123]?)(?![0-9])""")
_LONGEST_PRODUCT = 5


class UnknownUnitError(ValueError):
    """A unit that no spelling covers; `nearest` is the closest one, or empty."""

    def __init__(self, unit: str, nearest: str) -> None:
        """Hold the unknown `unit` and the `nearest` known spelling."""
        super().__init__(unit)
        self.unit = unit
        self.nearest = nearest


def tidy(text: str) -> str:
    """Rewrite the many ways to write one unit into one."""
    for pattern, replacement in _REWRITES:
        text = pattern.sub(replacement, text)
    return " ".join(text.split())


@cache
def registry_unit(text: str) -> str:
    """Return `text` in the registry's spelling, e.g. `W/m2K` as `watt/(meter**2*kelvin)`.

    Raises UnknownUnitError with the nearest known spelling.
    """
    above, *below = tidy(text).split("/")
    top = "*".join(_atoms(above)) or "1"
    bottom = "*".join(atom for part in below for atom in _atoms(part))
    return f"{top}/({bottom})" if bottom else top


def _atoms(text: str) -> list[str]:
    """The factors of a product such as `ft2 F` or `m2K`, each in the registry's spelling."""
    found: list[str] = []
    position = 0
    while position < len(text.rstrip()):
        match = _ATOM.match(text, position)
        if match is None:
            raise UnknownUnitError(text.strip(), nearest(text))
        *others, last = _split(match[1])
        found += [*others, f"{last}**{match[2]}" if match[2] else last]
        position = match.end()
    return found


def _split(word: str) -> list[str]:
    """One unit, or some written without a space (`mK`, `hftF`). Raises UnknownUnitError."""
    whole = _lookup(word)
    if whole is not None:
        return [whole]
    product = _product(word) if len(word) <= _LONGEST_PRODUCT else []
    if not product:
        raise UnknownUnitError(word, nearest(word))
    return product


def _product(word: str) -> list[str]:
    """The units that make up `word`, in exact case (`wats` is none), the longest first.

    Longest first, since `kgK` holds a kilogram and no kelvin at its start. Empty: no product.
    """
    exact, _ = _tables()
    if word in exact:
        return [exact[word]]
    for cut in range(len(word) - 1, 0, -1):
        rest = _product(word[cut:]) if word[:cut] in exact else []
        if rest:
            return [exact[word[:cut]], *rest]
    return []


@cache
def _tables() -> tuple[dict[str, str], dict[str, str]]:
    """Spellings to registry names: exact, and with case folded."""
    exact = {
        spelling: name for name, spellings in _SPELLINGS.items() for spelling in spellings.split()
    }
    folded = {
        spelling.casefold(): name for spelling, name in exact.items() if spelling not in _EXACT
    }
    return exact, folded


def _lookup(word: str) -> str | None:
    exact, folded = _tables()
    return exact.get(word) or folded.get(word.casefold())


def nearest(word: str) -> str:
    """The known spelling closest to `word`, or nothing when none is close."""
    exact, _ = _tables()
    known = {spelling.casefold(): spelling for spelling in exact}
    for extra in ("psig", "psia", "micron", "Btu/h", "barg", "bara", "floz", "kPa abs"):
        known[extra.casefold()] = extra
    close = get_close_matches(word.strip().casefold(), list(known), n=1, cutoff=0.6)
    return known[close[0]] if close else ""
