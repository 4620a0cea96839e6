"""An assessment's figures in groups, as a maker thinks: cabinet, cold side, machine, gas, day."""

from __future__ import annotations

from collections.abc import Sequence

from coldwright.sheet.rows.air_way import air_way_rows
from coldwright.sheet.rows.cold_side import cold_side_rows
from coldwright.sheet.rows.frost import frost_rows
from coldwright.sheet.rows.hot_side import hot_side_sections
from coldwright.sheet.rows.machine import battery_rows, compressor_rows
from coldwright.sheet.rows.rest import rest_rows
from coldwright.sheet.rows.vessel import holdover_section, vessel_rows
from coldwright.sheet.writer import Columns, Row, Writer
from coldwright.verdict import value_at
from coldwright.verdict.figures import percent

BALANCED = "balanced"


Section = tuple[str, list[Row]]
# The part of the maker's work that a group of figures belongs to.
CABINET, COLD_SIDE, MACHINE, DAY = "cabinet", "cold_side", "machine", "day"


def sections(write: Writer) -> Sequence[Section]:
    """The groups of figures of a whole report, as (label, figure, remark)."""
    return [section for _, section in placed_sections(write)]


def placed_sections(write: Writer) -> Sequence[tuple[str, Section]]:
    """The same, each with the part of the work it belongs to."""
    f = write.figure
    return (
        (CABINET, _cabinet(write)),
        (COLD_SIDE, _cold_side(write)),
        *((COLD_SIDE, section) for section in holdover_section(write.data, f)),
        (CABINET, ("Air's way, the mean air held", air_way_rows(write.data, f))),
        (MACHINE, ("Machine", _machine_rows(write))),
        *((MACHINE, section) for section in hot_side_sections(write)),
        (MACHINE, ("Compressor", compressor_rows(write))),
        (MACHINE, ("Gas", _gas_rows(write))),
        (MACHINE, ("Stopped", rest_rows(write.data["at_rest"], write.written))),
        (DAY, _day(write)),
    )


def quick_sections(write: Writer) -> Sequence[tuple[str, Section]]:
    """Those groups that the quick answer's figures are enough for."""
    return (
        (CABINET, _cabinet(write)),
        (MACHINE, ("Machine", _machine_rows(write))),
        (MACHINE, ("Gas", _gas_rows(write))),
    )


def _held(write: Writer) -> str:
    """The state that the cabinet's figures are of, as a title goes on."""
    state = write.data["cabinet"]["state"]
    if write.data["cycling"]["while_on"]["reason"] != BALANCED and state == "cycling":
        return "as the target asks for"
    return "while the target is held" if state == "cycling" else "running without a stop"


def _cabinet(write: Writer) -> Section:
    f = write.figure
    return (
        f"Cabinet, {_held(write)}",
        [
            ("stored air, mean", f("cabinet.air_C"), ""),
            ("coldest shelf", f("cabinet.coldest_shelf_C"), "air falling off the cold side"),
            ("warmest shelf", f("cabinet.warmest_shelf_C"), "air returning over the top"),
            ("heat coming in", f("cabinet.heat_gain_W"), _ways(write)),
            ("walls and gasket", f("cabinet.conductance_W_per_K"), "per degree, door shut"),
            ("humidity inside", f("cabinet.relative_humidity"), ""),
        ],
    )


def _cold_side(write: Writer) -> Section:
    f = write.figure
    return (
        f"Cold side, {_held(write)}",
        [
            ("outside surface", f("cabinet.cold_surface_C"), "on its frost"),
            ("radiation's share", f("cabinet.radiation_share"), "of heat to the surface"),
            ("air around it", f("cabinet.air_flow_m3_per_h"), "by gravity"),
            *cold_side_rows(write.data["cold_side"], write.written),
            *frost_rows(write.data, f),
            *vessel_rows(write.data, f),
        ],
    )


def _day(write: Writer) -> Section:
    f = write.figure
    return (
        "Day",
        [
            ("running", f("cycling.run_fraction"), _width(write)),
            ("energy", f("cycling.energy_kWh_per_day"), "losses at each start left out"),
            *battery_rows(write),
            (
                "hottest day",
                f("hottest_day.run_fraction"),
                f"running, in a room of {f('hottest_day.room_C')}",
            ),
        ],
    )


MACHINE_ROWS = (
    ("evaporating", "evaporating_C"),
    ("condensing", "condensing_C"),
    ("suction", "suction_Pa"),
    ("discharge", "discharge_Pa"),
    ("capacity", "capacity_W"),
    ("power", "power_W"),
    ("current", "current_A"),
    ("superheat at evaporator", "evaporator_exit_superheat_K"),
    ("subcooling", "subcooling_K"),
    ("gas returning", "return_gas_C"),
    ("discharge gas", "discharge_gas_C"),
    ("shell", "shell_C"),
    ("flow", "mass_flow_kg_per_h"),
)
MACHINE_COLUMNS = (
    ("holding the target", "cycling.while_on"),
    ("never stopping", "running"),
    ("start, all warm", "pull_down"),
)


def machine_cells(write: Writer) -> list[tuple[str, tuple[str, ...]]]:
    """Each figure of the machine with its cells, one for each of `MACHINE_COLUMNS`."""
    source = "brine" if "brine_C" in write.data["running"] else "compartment"
    return [
        (label, tuple(write.figure(f"{state}.{key}") for _, state in MACHINE_COLUMNS))
        for label, key in ((source, f"{source}_C"), *MACHINE_ROWS)
    ]


def _machine_rows(write: Writer) -> list[Row]:
    """Columns in one text: the figure holds all states, split by tabs."""
    rows: list[Row] = [("", Columns(*(title for title, _ in MACHINE_COLUMNS)), "")]
    rows += [(label, Columns(*cells), "") for label, cells in machine_cells(write)]
    states = {title: value_at(write.data, f"{state}.reason") for title, state in MACHINE_COLUMNS}
    if not any(reason == BALANCED for reason in states.values()):
        rows = []
    rows += [
        (f"{title}: no balance; {reason}", "", "")
        for title, reason in states.items()
        if reason != BALANCED
    ]
    return rows


def _gas_rows(write: Writer) -> list[Row]:
    found = "found for the stated superheat" if write.data["charge"]["found"] else "as entered"
    found += "; good to about 15 %" if write.data["charge"]["found"] else ""
    places = write.data["charge"]["by_place_g"]
    known = {name: value for name, value in places.items() if value is not None}
    listed = sorted(known.items(), key=lambda item: -item[1])
    most = ", ".join(
        f"{name.replace('_', ' ')} {write.written('x_g', value)}" for name, value in listed[:5]
    )
    return [
        ("charge", write.figure("charge.fill_g"), found),
        ("where it is", "" if known else "not known", most),
        ("inside volume", write.figure("charge.total_volume_cm3"), "all tubes and the shell"),
    ]


def _ways(write: Writer) -> str:
    ways = write.data["cabinet"]["gain_by_way_W"]
    faces = sum(value for name, value in ways.items() if name.startswith("face "))
    others = {name: value for name, value in ways.items() if not name.startswith("face ")}
    rows = [("faces", faces), *sorted(others.items(), key=lambda item: -item[1])]
    least = 0.005 * sum(abs(value) for _, value in rows)
    listed = (row for row in rows[:5] if abs(row[1]) > least)
    return ", ".join(f"{name} {write.written('x_W', value)}" for name, value in listed)


def _width(write: Writer) -> str:
    allowed = f"allowed {write.figure('highest_run_fraction')}"
    width = write.data["cycling"]["run_fraction_half_width"]
    never_stops = (write.data["cycling"]["run_fraction"] or 0.0) > 1.0
    return (
        allowed if width is None or never_stops else f"95 % interval ± {percent(width)}; {allowed}"
    )
