"""Assessments that several tests look at, worked out once, and cases bent away from them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import fields, replace
from functools import cache

from coldwright.build import loads
from coldwright.units import System
from coldwright.verdict import Assessment, assess
from coldwright.verdict.case import Case
from coldwright.verdict.figures import CabinetFigures, MachineFigures
from coldwright.verdict.fill_window import FillWindow, fill_window
from support.builds import build_text

BATTERY = """[compressor]
supply = "dc"
voltage = "12 V"
speed = "2600 rpm"
rated_speed = "2895 rpm"
lead = { length = "6 m", cross_section = "4 mm2", fuse = "10 A", contact = "10 A" }
"""


@cache
def assessed(name: str) -> Assessment:
    """The assessment of the build file `name` of `support.builds`; its charge is the file's word.

    The larder's charge is stated, which takes half the time of finding it. `battery` is the galley
    with a machine of variable speed on 12 V.
    """
    if name == "battery":
        return assess(loads(changed("galley", ("[compressor]\n", BATTERY))))
    text = changed(name, ('fill = "find"', 'fill = "40 g"')) if name == "larder" else None
    return assess(loads(text or build_text(name)))


@cache
def window_of(name: str) -> FillWindow:
    """The fill window of the build that `assessed` has under `name`."""
    case = assessed(name).case
    return fill_window(case.build, case.translation)


def read_in(name: str, system: System) -> Case:
    """The case of `assessed` for a reader of one system of units."""
    return replace(assessed(name).case, system=system)


def changed(name: str, *changes: tuple[str, str]) -> str:
    """The text of build file `name` with pieces of it exchanged; each must stand there."""
    text = build_text(name)
    for old, new in changes:
        if old not in text:
            raise ValueError(f"{old!r} does not stand in {name}")
        text = text.replace(old, new, 1)
    return text


def altered(
    case: Case,
    machine: Mapping[str, Mapping[str, object]] | None = None,
    cabinet: Mapping[str, object] | None = None,
    properties: Mapping[str, object] | None = None,
) -> Case:
    """`case` with figures of the machine (by state), the cabinet or properties put in by hand."""
    machine, cabinet = machine or {}, cabinet or {}

    class Altered(Case):
        def machine(self, state: str, lane: int = 0) -> MachineFigures:
            return replace(super().machine(state, lane), **machine.get(state, {}))

        def cabinet(self, state: str, lane: int = 0) -> CabinetFigures:
            return replace(super().cabinet(state, lane), **cabinet)

    for key, value in (properties or {}).items():
        setattr(Altered, key, property(lambda _, value=value: value))
    return Altered(**{field.name: getattr(case, field.name) for field in fields(Case)})
