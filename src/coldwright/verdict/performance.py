"""A machine's performance table: what it does at each temperature of its source and of the room."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from coldwright.build.translation.plant import Translation
from coldwright.plant.balance import BALANCED, REASONS, settle
from coldwright.plant.box import Room, conditions
from coldwright.plant.charge_rule import FixedCharge
from coldwright.plant.operation import operate
from coldwright.verdict.figures import MachineFigures, at_lane, machine_figures

# Values of an axis between round ones of the reader's units [K], the finest that are few enough.
ROUND_STEPS = (1.0, 2.0, 5.0, 10.0, 20.0)
FAHRENHEIT = 5.0 / 9.0
ICE, ZERO_F = 273.15, 255.372222


@dataclass(frozen=True)
class Performance:
    """Settled states over sources and rooms [K], with the charge [kg]."""

    sources: tuple[float, ...]
    rooms: tuple[float, ...]
    charge: float
    found: bool  # the charge was sought, not stated
    not_found: str  # why no charge was found, where one was sought in vain; else empty
    is_brine: bool
    points: tuple[tuple[MachineFigures, ...], ...]  # `[source][room]`


def performance(
    translation: Translation,
    sources: Sequence[float] | None = None,
    rooms: Sequence[float] | None = None,
    *,
    span: tuple[float, float],
    shop_units: bool = False,
) -> Performance:
    """Settle the machine at every pair of `sources` and `rooms` [K], each a balance of its own.

    Without `sources`, round ones from the coldest that the box comes to up to the hottest room;
    without `rooms`, round ones over `span`, the site's coolest and hottest [K]. A charge that is to
    be found is found while the target is held.
    """
    plant, room = translation.plant, translation.room
    usual = operate(plant, room, translation.target, translation.charge, translation.superheat)
    charge = at_lane(usual.charge, 0)
    reason = int(at_lane(usual.cycling.balance.reason, 0))
    settled = reason == BALANCED
    if rooms is None:
        rooms = round_axis(*span, most=5, shop_units=shop_units)
    if sources is None:
        coldest = at_lane(usual.running.box.source_temperature, 0)
        sources = round_axis(coldest, max(span[1], *rooms), most=8, shop_units=shop_units)
    source, warm = np.meshgrid(np.array(sources), np.array(rooms), indexing="ij")
    around = Room(
        warm.reshape(-1),
        np.broadcast_to(room.relative_humidity, warm.size),
        np.broadcast_to(room.atmospheric_pressure, warm.size),
    )
    flat = source.reshape(-1)
    balance = settle(
        plant.system, conditions(around, flat), FixedCharge(np.full(warm.size, charge))
    )
    machine = translation.machine
    figures = [
        machine_figures(balance, flat, machine.voltage, machine.magnetising_current, lane)
        for lane in range(flat.size)
    ]
    wide = len(rooms)
    return Performance(
        sources=tuple(sources),
        rooms=tuple(rooms),
        charge=charge,
        found=translation.charge is None,
        not_found="" if settled or translation.charge is not None else REASONS[reason],
        is_brine=not plant.box.cold_side.source_is_air,
        points=tuple(tuple(figures[i : i + wide]) for i in range(0, len(figures), wide)),
    )


def round_axis(
    low: float, high: float, *, most: int, shop_units: bool = False
) -> tuple[float, ...]:
    """Round temperatures [K] of the reader's units that cover `low` to `high`, `most` or fewer."""
    unit, zero = (FAHRENHEIT, ZERO_F) if shop_units else (1.0, ICE)
    least, greatest = (float(each - zero) / unit for each in (low, high))
    for step in ROUND_STEPS:
        first, last = np.floor(least / step), np.ceil(greatest / step)
        if last - first + 1 <= most or step == ROUND_STEPS[-1]:
            break
    return tuple(float(each) for each in zero + unit * step * np.arange(first, last + 1.0))
