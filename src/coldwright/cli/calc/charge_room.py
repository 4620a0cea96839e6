"""`calc charge-room`: what a leak of the whole charge makes of a room and of the cabinet."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

import typer

from coldwright.cli.calc.answer import Answer, Data, Row, Writer, cited, noticed, worked_out
from coldwright.cli.calc.entries import Entries, Entry
from coldwright.cli.calc.options import ChargeText, Gas
from coldwright.cli.terminal import SHOP, AsJson, Units, faults_shown
from coldwright.units import Kind, System

if TYPE_CHECKING:
    from coldwright.shop.refrigerant_safety import RefrigerantSafety

CHARGES = (1e-3, 5.0)  # kg
ROOMS = (0.5, 1e5)  # m3
CABINETS = (1e-3, 20.0)  # m3
CAUTIONS = (
    "local_law",
    "no_venting",
    "flammable_refrigerant",
    "class_2_is_not_2L",
    "toxic_combustion",
    "heavy_gas",
)
ASK = (
    "Ask your authority what holds where you are, and have a certified person check it. The rules "
    "named here differ by country and year, and a standard asks for much more than a small charge."
)


def charge_room(
    refrigerant: Gas,
    charge: ChargeText = None,
    room: Annotated[
        str | None, typer.Option("--room", metavar="V", help='Free volume, such as "18 m3".')
    ] = None,
    cabinet: Annotated[
        str | None,
        typer.Option("--cabinet", metavar="V", help='Inside of the closed box, such as "120 L".'),
    ] = None,
    units: Units = SHOP,
    as_json: AsJson = False,
) -> None:
    """Leaked charge in a room and in the closed cabinet, against the limits of the gas."""
    from coldwright.shop.refrigerant_safety import safety  # noqa: PLC0415 (reads files)

    entries = Entries()
    with faults_shown(as_json):
        system = entries.system(units)
        gas = entries.attempt(lambda: safety(refrigerant))
        inputs = {
            "charge": entries.needed("--charge", charge, Kind.mass, CHARGES),
            "room": entries.needed("--room", room, Kind.volume, ROOMS),
        }
        box = entries.optional("--cabinet", cabinet, Kind.volume, CABINETS)
        if box is not None:
            inputs["cabinet"] = box
        known = entries.settled(gas)
        data = _found(known, inputs)
        _answer(data, system, known, entries.remarks).show(as_json)


def _found(gas: RefrigerantSafety, inputs: dict[str, Entry]) -> Data:
    def compute(charge: float, room: float, cabinet: float | None = None) -> Data:
        return _figures(gas, charge, room, cabinet)

    data = worked_out(compute, inputs)
    return {**data, "rules": _rules(gas, inputs["charge"].value), "law": _law(gas)}


def _figures(gas: RefrigerantSafety, charge: float, room: float, cabinet: float | None) -> Data:
    from coldwright.shop.charge_in_room import least_rooms, spread  # noqa: PLC0415 (reads files)

    in_room, rooms = spread(gas, charge, room), least_rooms(gas, charge)
    closed = None if cabinet is None else spread(gas, charge, cabinet)
    lower = gas.lower_flammability_limit_kg_m3
    return {
        "refrigerant": gas.name,
        "safety_class": gas.safety_class,
        "charge_g": charge * 1e3,
        "room_m3": room,
        "lower_flammability_limit_g_per_m3": None if lower is None else lower * 1e3,
        "practical_limit_g_per_m3": gas.practical_limit_kg_m3 * 1e3,
        "rcl_g_per_m3": gas.rcl_kg_m3 * 1e3,
        "concentration_g_per_m3": in_room.concentration_kg_m3 * 1e3,
        "lower_limit_percent": _percent(in_room.share_of_lower_limit),
        "practical_limit_percent": _percent(in_room.share_of_practical_limit),
        "rcl_percent": _percent(in_room.share_of_rcl),
        "least_room_quarter_of_lower_limit_m3": rooms.quarter_of_lower_limit,
        "least_room_practical_limit_m3": rooms.practical_limit,
        "least_room_rcl_m3": rooms.rcl,
        "cabinet_m3": cabinet,
        "cabinet_concentration_g_per_m3": (
            None if closed is None else closed.concentration_kg_m3 * 1e3
        ),
        "cabinet_lower_limit_percent": (
            None if closed is None else _percent(closed.share_of_lower_limit)
        ),
        "cabinet_lower_limit_reached_at_g": (
            None if cabinet is None or lower is None else lower * cabinet * 1e3
        ),
    }


def _percent(share: float | None) -> float | None:
    return None if share is None else 100.0 * share


def _rules(gas: RefrigerantSafety, charge: float) -> list[Data]:
    """What rules name for this class of gas, beside the charge."""
    from coldwright.shop.charge_in_room import charge_limits  # noqa: PLC0415 (reads files)

    return [
        {
            "name": limit.name,
            "scope": limit.scope,
            "most_g": limit.charge_kg * 1e3,
            "charge_is_above": charge > limit.charge_kg,
            "source": cited(limit.source)[0],
        }
        for limit in charge_limits(gas)
    ]


def _law(gas: RefrigerantSafety) -> list[Data]:
    from coldwright.shop.charge_in_room import law_lines  # noqa: PLC0415 (reads files)

    return [
        {"place": line.place, "text": line.text, "source": cited(line.source)[0]}
        for line in law_lines(gas)
    ]


def _answer(data: Data, units: System, gas: RefrigerantSafety, remarks: list[str]) -> Answer:
    from coldwright.shop.cautions import cautions_for  # noqa: PLC0415 (slow to import)

    write = Writer(data, units)
    rows: list[Row] = [
        ("whole charge in the room", write.figure("concentration_g_per_m3"), "evenly mixed"),
        *_limit_rows(data, write),
        *_cabinet_rows(data, write),
        *_rule_rows(data, write),
    ]
    caveat = [noticed(each) for each in cautions_for(gas.safety_class) if each.code in CAUTIONS]
    law = [f"{line['place']}: {line['text']}." for line in data["law"]]
    notes = [*remarks, *_meaning(data), *([gas.note] if gas.note else []), *law, ASK]
    keys = [gas.source, *(["calc_quarter_of_lower_limit"] if gas.flammable else [])]
    sources = [*cited(*keys), *dict.fromkeys(rule["source"] for rule in data["rules"])]
    sources += cited("shop_refrigerant_law")
    title = (
        f"{write.figure('charge_g')} of {gas.name} (class {gas.safety_class}) "
        f"in {write.figure('room_m3')}"
    )
    return Answer(title, data, rows, notes, caveat, list(dict.fromkeys(sources)))


LIMITS = (
    ("lower flammability limit", "lower_flammability_limit_g_per_m3", "lower_limit_percent"),
    ("practical limit", "practical_limit_g_per_m3", "practical_limit_percent"),
    ("concentration limit (RCL)", "rcl_g_per_m3", "rcl_percent"),
)
ROOM_ROWS = (
    ("room for a quarter of it", "least_room_quarter_of_lower_limit_m3"),
    ("room for the practical limit", "least_room_practical_limit_m3"),
    ("room for the RCL", "least_room_rcl_m3"),
)


def _limit_rows(data: Data, write: Writer) -> list[Row]:
    rows: list[Row] = []
    for (label, key, share), (room, room_key) in zip(LIMITS, ROOM_ROWS, strict=True):
        if data[key] is None:
            rows.append((label, "none", "this gas does not burn in air at room temperature"))
            continue
        rows.append((label, write.figure(key), f"the leak makes {_share(data[share])} of it"))
        rows.append((room, write.figure(room_key), "at least"))
    return rows


def _share(percent: float) -> str:
    return f"{percent:.0f} %" if percent >= 100.0 else f"{percent:.3g} %"


def _cabinet_rows(data: Data, write: Writer) -> list[Row]:
    if data["cabinet_m3"] is None:
        return []
    share = data["cabinet_lower_limit_percent"]
    remark = "" if share is None else f"{_share(share)} of the lower limit"
    rows = [("in the closed cabinet", write.figure("cabinet_concentration_g_per_m3"), remark)]
    if share is not None:
        reached = write.figure("cabinet_lower_limit_reached_at_g")
        rows.append(("it takes only", reached, "to reach the lower limit in there"))
    return rows


def _rule_rows(data: Data, write: Writer) -> list[Row]:
    return [
        (
            f"rule for {rule['name']}",
            write.si(rule["most_g"] * 1e-3, Kind.mass),
            f"at most; {rule['scope']}; the charge is "
            f"{'above' if rule['charge_is_above'] else 'below'}",
        )
        for rule in data["rules"]
    ]


def _meaning(data: Data) -> list[str]:
    found: list[str] = []
    quarter = data["least_room_quarter_of_lower_limit_m3"]
    if quarter is not None:
        small = data["room_m3"] < quarter
        found.append(
            "The room is smaller than the one that keeps the leak below a quarter of the lower "
            "limit: a spark near the floor can light it, whatever charge a rule names."
            if small
            else "Evenly mixed, the leak stays below a quarter of the lower limit. It is not mixed "
            "at first: near the leak and along the floor it burns."
        )
    if max(data["practical_limit_percent"], data["rcl_percent"]) > 100.0:
        found.append("A limit for people in the room is exceeded: a larger room or less charge.")
    share = data["cabinet_lower_limit_percent"]
    if share is not None and share >= 100.0:
        found.append(
            "A leak into the closed cabinet can make it explosive, however large the room: no "
            "switch, lamp, fan or thermostat contact inside that can spark."
        )
    return found
