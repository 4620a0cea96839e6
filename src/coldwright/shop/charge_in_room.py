"""A charge that has all leaked into a room or a closed cabinet, against the limits of its gas.

Even mixing is assumed. A leak does not mix evenly: these gases are heavier than air and lie on the
floor, which is why a room is sized for a quarter of the lower limit.
"""

from __future__ import annotations

from dataclasses import dataclass

from coldwright.shop.refrigerant_safety import RefrigerantSafety
from coldwright.shop.rows import table

QUARTER = 0.25


@dataclass(frozen=True)
class Spread:
    """A whole charge in one closed volume; a share is None where the gas has no such limit."""

    concentration_kg_m3: float
    share_of_lower_limit: float | None
    share_of_practical_limit: float
    share_of_rcl: float


@dataclass(frozen=True)
class LeastRooms:
    """Volumes [m3] that keep a leaked charge at a limit."""

    quarter_of_lower_limit: float | None
    practical_limit: float
    rcl: float


@dataclass(frozen=True)
class ChargeLimit:
    """What one rule names as the most charge [kg]."""

    name: str
    scope: str
    charge_kg: float
    source: str


@dataclass(frozen=True)
class LawLine:
    """What the law of one place says, in a line; never the whole of it."""

    place: str
    text: str
    source: str


def spread(gas: RefrigerantSafety, charge: float, volume: float) -> Spread:
    """A `charge` [kg] of `gas` spread evenly in `volume` [m3]."""
    concentration = charge / volume
    lower = gas.lower_flammability_limit_kg_m3
    return Spread(
        concentration_kg_m3=concentration,
        share_of_lower_limit=None if lower is None else concentration / lower,
        share_of_practical_limit=concentration / gas.practical_limit_kg_m3,
        share_of_rcl=concentration / gas.rcl_kg_m3,
    )


def least_rooms(gas: RefrigerantSafety, charge: float) -> LeastRooms:
    """Rooms in which a `charge` [kg] of `gas`, all leaked, just reaches each limit."""
    return LeastRooms(
        quarter_of_lower_limit=gas.least_room_volume(charge, QUARTER) if gas.flammable else None,
        practical_limit=charge / gas.practical_limit_kg_m3,
        rcl=charge / gas.rcl_kg_m3,
    )


def charge_limits(gas: RefrigerantSafety) -> tuple[ChargeLimit, ...]:
    """The charges that rules name for the class of `gas`; none for one that does not burn."""
    lower = gas.lower_flammability_limit_kg_m3
    found = []
    for row in table("charge_limits.toml").values():
        if lower is None or gas.safety_class not in row["classes"]:
            continue
        charge = row.get("charge_kg", row.get("volume_m3", 0.0) * lower)
        found.append(ChargeLimit(row["name"], row["scope"], charge, row["source"]))
    return tuple(found)


def law_lines(gas: RefrigerantSafety) -> tuple[LawLine, ...]:
    """What two laws say of opening and charging a system with `gas`."""
    return tuple(
        LawLine(row["place"], row["text"], row["source"])
        for row in table("charge_law.toml").values()
        if gas.safety_class in row["classes"]
    )
