"""What each stage of the work has to say of a box, in plain sentences that begin with the number.

Written from the report of an assessment (and of a day), in the reader's units, so that a page, a
printed sheet and a screen reader say the same.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from typing import Any, Literal

from coldwright.build.result import Build
from coldwright.sheet.drawing.readings import SECONDS_PER_HOUR, Readings
from coldwright.units import Kind, System

Stage = Literal["cabinet", "cold_side", "machine", "balance", "day"]
STAGES: tuple[Stage, ...] = ("cabinet", "cold_side", "machine", "balance", "day")

MOST_WAYS, MOST_STEPS = 3, 4  # that are named one by one
LEAST_SHARE = 0.01  # of a step or a way that is worth its words
WAYS = {
    "face top": "the top",
    "face bottom": "the floor",
    "face left": "the left wall",
    "face right": "the right wall",
    "face front": "the front",
    "face back": "the back wall",
    "bridges": "frames and other bridges",
    "gasket": "the seal",
    "leakage": "gaps",
    "drain": "the drain",
    "doors": "openings",
    "contents": "the goods",
    "latent": "moisture that settles",
}


def stage_sentences(
    stage: Stage,
    build: Build,
    figures: Mapping[str, Any],
    units: System,
    day: Mapping[str, Any] | None = None,
) -> list[str]:
    """The sentences of `stage`, most telling first.

    `figures`: the report of an assessment; `day`: that of a day, where one was worked out. Without
    a balance there is one sentence with the reason. Raises KeyError for an unknown stage.
    """
    write = _STAGES[stage]
    readings = Readings(build, figures, units)
    if stage == "day" and day is not None:
        return list(_counted_day(Readings(build, day, units)))
    if not readings.degrees(readings.cabinet("air_C")):
        reason = readings.machine("reason") or "none was found"
        return [f"No balance: {reason}."]
    return list(write(readings))


def _cabinet(r: Readings) -> Iterator[str]:
    """How much heat comes in, and by which way."""
    whole = float(r.cabinet("heat_gain_W") or 0.0)
    inside, room = r.degrees(r.cabinet("air_C")), r.degrees(r.get("room_C"))
    yield f"{_heat(r, whole)} come in, with {inside} inside and {room} in the room."
    ways = {name: float(heat or 0.0) for name, heat in r.get("cabinet", "gain_by_way_W").items()}
    walls = sum(heat for name, heat in ways.items() if name.startswith("face "))
    if whole > 0.0:
        yield f"{_heat(r, walls)} of that ({_percent(r, walls / whole)}) come through the walls."
    largest = sorted(ways.items(), key=lambda each: -each[1])[:MOST_WAYS]
    named = [f"{_heat(r, heat)} by {_way(r, name)}" for name, heat in largest if heat > 0.0]
    if named:
        yield f"{_listed(named)}: the largest ways."
    door = sum(ways.get(name, 0.0) for name in ("gasket", "doors", "leakage"))
    what = "lid" if r.build.cabinet.door == "lid" else "door"
    yield f"{_heat(r, door)} are the {what}'s: seal, gaps and openings."
    lost = r.cabinet("conductance_W_per_K")
    yield f"{r.write(lost, Kind.conductance)} pass for each degree between room and inside."


def _way(r: Readings, name: str) -> str:
    door = "face top" if r.build.cabinet.door == "lid" else "face front"
    if name == door:
        return "the lid" if door == "face top" else "the door"
    return WAYS.get(name, name)


def _cold_side(r: Readings) -> Iterator[str]:
    """The steps from refrigerant to air, and the air's way."""
    whole = r.get("cold_side", "evaporating_to_air_K")
    steps = r.get("cold_side", "steps_K") or {}
    if whole:
        yield f"{r.difference(whole)} lie between boiling refrigerant and stored air."
        largest = sorted(steps.items(), key=lambda each: -each[1])[:MOST_STEPS]
        named = [
            f"{r.difference(step)} ({_percent(r, step / whole)}) at the {name}"
            for name, step in largest
            if step > LEAST_SHARE * whole
        ]
        yield f"{_listed(named)}: the largest steps."
    surface = r.degrees(r.cabinet("cold_surface_C"))
    shine = r.cabinet("radiation_share")
    yield (
        f"{surface} on the cold surface, which takes up {_percent(r, shine)} of its heat by "
        "radiation."
    )
    flow = float(r.cabinet("air_flow_m3_per_h") or 0.0) / SECONDS_PER_HOUR
    yield (
        f"{r.write(flow, Kind.volume_flow)} of air fall off it at "
        f"{r.degrees(r.cabinet('coldest_shelf_C'))} and return over the top at "
        f"{r.degrees(r.cabinet('warmest_shelf_C'))}."
    )
    frost = r.cabinet("frost_g_per_day")
    if frost and frost > 0.5:
        frozen = float(r.cabinet("cold_surface_C") or 0.0) < 0.0
        settled = "frost" if frozen else "water"
        yield f"{r.write(frost / 1e3, Kind.mass)} of {settled} settle on it in a day."
    yield from _coil(r)


def _coil(r: Readings) -> Iterator[str]:
    """What the evaporator's tube is used for."""
    coil = r.get("cold_side", "coil")
    if not coil:
        return
    spare = coil["spare_m"]
    rest = (
        f"{r.run(spare)} are to spare"
        if spare > LEAST_SHARE * coil["length_m"]
        else "none is to spare"
    )
    boiling, whole = r.run(coil["boiling_m"]), r.run(coil["length_m"])
    yield f"{boiling} of its {whole} of tube are boiling; {rest}."


def _machine(r: Readings) -> Iterator[str]:
    """Watts, amperes, pressures, temperatures while it runs."""
    power, current = r.machine("power_W"), r.machine("current_A")
    mains = r.build.compressor.supply == "ac"
    voltage = (r.build.site.mains_voltage if mains else r.build.compressor.voltage).value
    yield (
        f"{r.write(power, Kind.power)} and {r.write(current, Kind.current)} while it runs, at "
        f"{r.write(voltage, Kind.voltage)}."
    )
    yield (
        f"{_pressure(r, 'suction_Pa')} on the low side: it boils at "
        f"{r.degrees(r.machine('evaporating_C'))}."
    )
    above = r.difference(r.get("hot_side", "condensing_above_room_K"))
    yield (
        f"{_pressure(r, 'discharge_Pa')} on the high side: it condenses at "
        f"{r.degrees(r.machine('condensing_C'))}" + (f", {above} over the room." if above else ".")
    )
    yield (
        f"{_heat(r, r.machine('capacity_W'))} are taken from the cold side and "
        f"{_heat(r, r.machine('condenser_heat_W'))} given to the room."
    )
    yield (
        f"{r.degrees(r.machine('discharge_gas_C'))} in the discharge gas, "
        f"{r.degrees(r.machine('shell_C'))} on the shell, {r.degrees(r.machine('return_gas_C'))} "
        "in the return gas."
    )
    wet = float(r.machine("return_quality") or 0.0)
    if wet < 0.995:
        yield f"{_percent(r, 1.0 - wet)} of the flow comes back as liquid: more gas than it boils."
    found = ", found by the program" if r.get("charge", "found") else ""
    fill = r.get("charge", "fill_g")
    if fill is not None:
        name = r.build.refrigerant.name
        yield f"{r.write(fill / 1e3, Kind.mass)} of {name} are in it{found}."


def _balance(r: Readings) -> Iterator[str]:
    """Whether it holds, how much it runs, and the hottest day."""
    room, target = r.degrees(r.get("room_C")), r.degrees(r.get("target_air_C"))
    share, half = r.get("cycling", "run_fraction"), r.get("cycling", "run_fraction_half_width")
    allowed = _percent(r, r.get("highest_run_fraction"))
    if r.cycling and share is not None:
        within = f" (± {_percent(r, half)})" if half is not None else ""
        yield (
            f"{_percent(r, share)} of the time{within} it runs to hold {target} in a room of "
            f"{room}; {allowed} are allowed."
        )
    else:
        half = r.get("running", "air_half_width_K")
        within = f" (± {r.difference(half)})" if half is not None else ""
        yield (
            f"{r.degrees(r.cabinet('air_C'))}{within} is as cold as it gets in a room of {room}: "
            f"it never stops and does not hold {target}."
        )
    if r.cycling:
        coldest = r.degrees(r.get("running", "air_C"))
        if coldest:
            yield f"{coldest} would be reached if it never stopped."
    yield from _hottest(r)


def _hottest(r: Readings) -> Iterator[str]:
    room, share = r.degrees(r.get("hottest_day", "room_C")), r.get("hottest_day", "run_fraction")
    if share is None:
        return
    if share <= 1.0:
        yield f"{_percent(r, share)} of the time it runs on the hottest day, at {room}."
        return
    air = r.degrees(r.get("hottest_day", "running_air_C"))
    if air:
        yield f"{air} is all that it holds on the hottest day, at {room}, without a stop."


def _day(r: Readings) -> Iterator[str]:
    """Energy of a usual day by the steady state; starts and swings are the clock's."""
    energy, hot = r.get("cycling", "energy_kWh_per_day"), r.get("hottest_day", "energy_kWh_per_day")
    if energy is not None:
        yield f"{_energy(r, energy)} a day, without what the starts lose."
    if hot is not None:
        yield f"{_energy(r, hot)} on the hottest day."
    charge = r.get("cycling", "battery_Ah_per_day")
    if charge is not None:
        yield f"{r.write(charge, Kind.number)}\u00a0Ah a day from the battery."
    hours = 24.0 * float(r.get("cycling", "run_fraction") or 0.0)
    if r.cycling and hours > 0.0:
        yield f"{r.write(hours * SECONDS_PER_HOUR, Kind.time)} of the 24 it runs."


def _counted_day(r: Readings) -> Iterator[str]:
    """A day of the clock."""
    room, air = r.degrees(r.get("room_C")), r.degrees(r.get("air_mean_C"))
    least, most = r.degrees(r.get("air_min_C")), r.degrees(r.get("air_max_C"))
    yield f"{air} is the day's mean of the stored air, between {least} and {most}, at {room}."
    goods, warmest = r.degrees(r.get("contents_mean_C")), r.degrees(r.get("contents_warmest_C"))
    yield f"{goods} have the goods in the mean, {warmest} at their warmest."
    yield (
        f"{_percent(r, r.get('run_fraction'))} of the time it runs, in "
        f"{r.write(r.get('starts_per_hour'), Kind.number)} starts an hour."
    )
    yield f"{_energy(r, r.get('energy_kWh_per_day'))} a day."
    frost, between = r.get("frost", "g_per_day"), r.get("frost", "days_between_defrosts")
    if frost:
        often = f"; it wants defrosting every {between:.0f} days" if between else ""
        yield f"{r.write(frost / 1e3, Kind.mass)} of frost a day{often}."


def _heat(r: Readings, watts: float | None) -> str:
    return r.write(watts, Kind.heat_flow)


def _energy(r: Readings, kilowatt_hours: float | None) -> str:
    return r.write(None if kilowatt_hours is None else kilowatt_hours * 3.6e6, Kind.energy)


def _pressure(r: Readings, key: str) -> str:
    return r.write(r.machine(key), Kind.absolute_pressure)


def _percent(r: Readings, share: float | None) -> str:
    return r.write(share, Kind.ratio, 0)


def _listed(parts: list[str]) -> str:
    """`a, b and c`."""
    return " and ".join([", ".join(parts[:-1]), parts[-1]] if len(parts) > 1 else parts)


_STAGES: dict[Stage, Callable[[Readings], Iterator[str]]] = {
    "cabinet": _cabinet,
    "cold_side": _cold_side,
    "machine": _machine,
    "balance": _balance,
    "day": _day,
}
