"""Refrigerant, room and oil: may this charge be in this machine in this room?"""

from __future__ import annotations

from collections.abc import Iterator

from coldwright.errors import Notice
from coldwright.fluids.oils import oil
from coldwright.shop.refrigerant_safety import safety
from coldwright.verdict.case import Case, Finding


def gas_findings(case: Case) -> Iterator[Finding]:
    """Findings about refrigerant, charge and oil."""
    build = case.build
    name = build.refrigerant.name
    row = safety(name)
    if row.historic:
        text = (
            f"{name} is here for old charts and dials only: it must not be charged anew. Recover "
            "it and use a gas that is allowed where you are."
        )
        yield Finding(Notice("historic_refrigerant", "danger", text, row.source))
    pair = oil(build.compressor.oil).pair(name)
    if not pair.suits:
        text = f"{build.compressor.oil} oil and {name}: {pair.miscibility}"
        yield Finding(Notice("oil_does_not_suit", "warning", text, pair.source))
    yield from _room(case)


def _room(case: Case) -> Iterator[Finding]:
    build = case.build
    row = safety(build.refrigerant.name)
    room = build.site.room_volume.value
    charge = case.written(case.charge, "mass")
    if row.flammable:
        wanted = row.least_room_volume(case.charge)
        size = case.written(wanted, "volume")
        given = case.written(room, "volume")
        if room < wanted:
            text = (
                f"All of the charge ({charge}) leaking into the room of {given} would pass a "
                f"quarter of the lower flammable limit; it takes {size} to stay under it. Local "
                "codes decide; a smaller charge or a larger, aired room is needed."
            )
            yield Finding(Notice("room_too_small", "danger", text, row.source))
        else:
            text = (
                f"{build.refrigerant.name} is class {row.safety_class} and burns. If all of the "
                f"charge ({charge}) leaks, a room of more than {size} keeps it under a quarter of "
                f"the lower flammable limit; this room is given as {given}."
            )
            yield Finding(Notice("flammable_charge", "warning", text, row.source))
    if case.charge / room > row.practical_limit_kg_m3:
        text = (
            f"The charge ({charge}) in this room is more than the practical limit of EN 378 for "
            f"{build.refrigerant.name}."
        )
        yield Finding(Notice("practical_limit", "danger", text, row.source))
