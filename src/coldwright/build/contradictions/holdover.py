"""A holdover's filling: its strength where it is a brine, and only there."""

from __future__ import annotations

from collections.abc import Iterator

from coldwright.build.completion import Completion
from coldwright.build.contradictions.cold_side import COLD
from coldwright.build.contradictions.finding import Finding
from coldwright.build.paths import Path
from coldwright.errors import InputError

HOLDOVER: Path = (*COLD, "holdover")


def filling_strength(build: Completion) -> Iterator[Finding]:
    """A brine has a fraction that lets it freeze; water and a eutectic have none to give."""
    from coldwright.fluids.filling import (  # noqa: PLC0415  (imports CoolProp)
        filling,
        filling_names,
        needs_fraction,
    )

    name = " ".join(build.text((*HOLDOVER, "filling")).lower().split())
    if name not in filling_names():
        return
    if not needs_fraction(name):
        for key in ("fraction", "basis"):
            path = (*HOLDOVER, key)
            if build.has(path) and path not in build.sources:
                message = f"{key.capitalize()} of cold side holdover has no meaning for {name}."
                hint = f"remove it, or name a brine such as {name.removesuffix(' eutectic')}"
                yield Finding(path, message, hint if "chloride" in name else "remove it")
        return
    place, basis = (*HOLDOVER, "fraction"), build.text((*HOLDOVER, "basis"))
    if not build.has(place):
        message = f"Fraction of cold side holdover must be given for a filling of {name}."
        yield Finding(place, message, 'such as fraction = "10 %" with its basis')
        return
    fraction = build.number(place)
    if fraction is None or basis not in ("volume", "mass"):
        return
    try:
        filling(name, fraction, "mass" if basis == "mass" else "volume")
    except InputError as error:
        fault = error.faults[0]
        at = (*HOLDOVER, "basis") if "basis" in fault.field else place
        yield Finding(at, fault.message, fault.hint)


RULES = (filling_strength,)
