"""Tubes and lines: friction, oil carried home, sweat, bends, and the condenser's film."""

from __future__ import annotations

from collections.abc import Iterator

from coldwright.build.schema.tube import Tube
from coldwright.errors import Notice
from coldwright.plant.pressure_losses import pressure_losses
from coldwright.shop.tubes import BENDER_SOURCE, SPRING_RATIO, least_bend_radius
from coldwright.sources import source
from coldwright.verdict.case import Case, Finding
from coldwright.verdict.figures import CELSIUS, at_lane
from coldwright.verdict.lines import Lines, lines

PRACTICE = "common practice, no source"
WORTH_TELLING = 0.5  # K of saturation temperature
USUAL_FILM = (5.0, 16.0)  # W/(m2 K), convection and radiation of a still-air condenser
# A line that goes level or down needs about half of what a riser does.
LEVEL_SHARE = 0.5
DRAWS = "the compressor draws at a lower pressure, and less, than shown."
PUMPS = "the compressor pumps against a higher pressure than shown."


def tube_findings(case: Case) -> Iterator[Finding]:
    """Findings about tubes and lines in the state that the box comes to."""
    yield from _bends(case)
    found = lines(case)
    if found is None:
        return
    yield from _friction(case)
    yield from _oil(case, found)
    yield from _sweat(case, found)
    yield from _film(case)


def _friction(case: Case) -> Iterator[Finding]:
    point = case.operation.cycling if case.state == "cycling" else case.operation.running
    losses = pressure_losses(case.translation.plant.system, point.balance.evaluation)
    rows = (
        ("evaporator", losses.evaporator, f"{DRAWS} A wider tube, or two side by side, lowers it."),
        ("suction line", losses.suction_line, f"{DRAWS} A wider line lowers it."),
        ("condenser", losses.condenser, f"{PUMPS} A wider tube lowers it."),
    )
    for name, loss, meaning in rows:
        worth = at_lane(loss.shift, 0)
        if worth > WORTH_TELLING:
            drop = case.written(at_lane(loss.drop, 0), "pressure_difference")
            text = (
                f"{case.words} friction in the {name} takes {drop}, worth "
                f"{case.difference(worth)} of saturation temperature, which the balance leaves "
                f"out: {meaning}"
            )
            cited = source("mueller_steinhagen_heck_1986").citation
            code = f"pressure_drop_{name.replace(' ', '_')}"
            yield Finding(Notice(code, "info", text, cited))


def _oil(case: Case, found: Lines) -> Iterator[Finding]:
    if found.suction_velocity_m_per_s >= found.oil_velocity_m_per_s:
        return
    gas, least = (
        case.written(value, "velocity")
        for value in (found.suction_velocity_m_per_s, found.oil_velocity_m_per_s)
    )
    level = found.suction_velocity_m_per_s >= LEVEL_SHARE * found.oil_velocity_m_per_s
    where = (
        "lead it level or down to the compressor, without a trap"
        if level
        else "even a level line may keep oil: take a narrower one"
    )
    text = (
        f"{case.words} the gas leaves the evaporator at {gas}; about {least} is needed to drag oil "
        f"up a riser of the suction line's bore: {where}."
    )
    yield Finding(Notice("oil_return", "warning", text, source("jacobs_1976_oil").citation))


def _sweat(case: Case, found: Lines) -> Iterator[Finding]:
    if found.sweating_length_m <= 0.0:
        return
    wet = case.written(found.sweating_length_m, "length")
    covered = (
        f"{case.written(found.insulation_m, 'length')} of closed-cell tube insulation keeps it dry "
        "there; an insulated line warms its gas less, so cover it to the shell"
        if found.insulation_m < float("inf")
        else "no usual insulation keeps it dry"
    )
    text = (
        f"{case.words} the outside of the suction line comes down to "
        f"{case.temperature(found.line_skin_C)}, under the room's dew point "
        f"{case.temperature(found.dew_point_C)}: it sweats over {wet} of "
        f"{case.written(found.free_length_m, 'length')}. At its cold end {covered}."
    )
    yield Finding(Notice("suction_line_sweats", "info", text, PRACTICE))


def _bends(case: Case) -> Iterator[Finding]:
    """Hairpins need twice the least radius between runs; a coil needs it all round."""
    build = case.build
    assumed = {entry.field for entry in build.assumed}
    condenser, evaporator = build.condenser.tube, build.cold_side.tube
    rows: list[tuple[str, str, float, Tube]] = [
        ("condenser.tube.pitch", "condenser", condenser.pitch.value, condenser)
    ]
    vessel = build.cold_side.vessel
    if vessel is not None:
        across = vessel.coil_diameter.value
        rows.append(("cold_side.vessel.coil_diameter", "coil", across, evaporator))
    elif build.cold_side.plate is not None or "cold_side.tube.pitch" not in assumed:
        rows.append(("cold_side.tube.pitch", "evaporator", evaporator.pitch.value, evaporator))
    for field, name, across, tube in rows:
        outside = tube.outside_diameter.value
        radius = least_bend_radius(outside)
        if across < 2.0 * radius:
            what = "turns are" if name == "coil" else "runs are"
            text = (
                f"The {name}'s {what} {case.written(across, 'length')} across, and "
                f"{case.written(outside, 'length')} tube bends to a radius of "
                f"{case.written(radius, 'length')} with a bender "
                f"({case.written(SPRING_RATIO * outside, 'length')} with a spring): at least "
                f"{case.written(2.0 * radius, 'length')} across, or bulbed returns."
            )
            yield Finding(Notice(f"tight_bend_{name}", "warning", text, BENDER_SOURCE), field)


def _film(case: Case) -> Iterator[Finding]:
    """Is the condenser's film what still air usually gives?"""
    point = case.operation.cycling if case.state == "cycling" else case.operation.running
    outside = point.balance.evaluation.condenser.outside
    film = at_lane(outside.convection_film + outside.radiation_film, 0)
    least, greatest = USUAL_FILM
    if least <= film <= greatest:
        return
    skin = case.temperature(at_lane(outside.surface_temperature, 0) - CELSIUS)
    text = (
        f"The condenser, {skin} outside, gives off {case.written(film, 'film_coefficient')}; still "
        f"air and radiation usually make {case.written(least, 'film_coefficient')} to "
        f"{case.written(greatest, 'film_coefficient')}. Check emissivity, gap, dirt and trim."
    )
    yield Finding(Notice("condenser_film", "info", text, "from memory"), "condenser")
