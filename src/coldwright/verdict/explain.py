"""Where a figure of the report comes from: its formula, its inputs and its sources.

One table for all figures. A key is the report's dotted path; machine figures are the same in each
state, so their keys stand once and serve `running`, `pull_down` and both `while_on`.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from difflib import get_close_matches
from typing import Any

from coldwright.errors import Fault, InputError
from coldwright.sources import sources
from coldwright.verdict.air_way_figures import EXPLAINED as AIR_WAY
from coldwright.verdict.at_rest import EXPLAINED as AT_REST
from coldwright.verdict.audit_figures import EXPLAINED as AUDIT
from coldwright.verdict.case import Case
from coldwright.verdict.explain_cold_side import COLD_SIDE
from coldwright.verdict.explain_hot_side import HOT_SIDE
from coldwright.verdict.explain_machine import BOX_SOURCES, MACHINE
from coldwright.verdict.explain_vessel import HOLDOVER, VESSEL
from coldwright.verdict.explained_gains import GAINS
from coldwright.verdict.explanation import Explanation
from coldwright.verdict.frost_figures import EXPLAINED as FROST

EXAMPLES = ("running.power_W", "cycling.run_fraction", "cabinet.heat_gain_W")
MACHINE_STATES = ("running", "pull_down", "cycling.while_on", "hottest_day.while_on")


FIGURES: Mapping[str, Explanation] = {
    **COLD_SIDE,
    "report_schema": Explanation("Version of this report's layout."),
    "room_C": Explanation("Design temperature of the room, from the build or --room."),
    "target_air_C": Explanation("Mean air temperature wanted, from the build."),
    "highest_run_fraction": Explanation("Highest share of running allowed, from the build."),
    "cabinet.heat_gain_W": Explanation(
        "Heat into the cold side: faces, bridges, gasket, leaks, door, contents and moisture.",
        ("cabinet.conductance_W_per_K", "cabinet.air_C", "room_C"),
        ("iso_6946", "holman", "gosney_olama_1975", "ashrae_fundamentals_ventilation"),
    ),
    "cabinet.conductance_W_per_K": Explanation(
        "Layers in series with both films, edges and corners by shape factors, plus bridges and "
        "gasket by the metre.",
        (),
        ("iso_6946", "holman"),
    ),
    "cabinet.air_C": Explanation(
        "Mean of the stored air: the target (cycling), or where heat removed equals heat gained.",
        ("cabinet.coldest_shelf_C", "cabinet.warmest_shelf_C"),
        ("churchill_chu_1975_plate",),
    ),
    "cabinet.coldest_shelf_C": Explanation(
        "Air that falls off the cold side: return air less the heat over its capacity flow.",
        ("cabinet.warmest_shelf_C", "cabinet.air_flow_m3_per_h", "cabinet.heat_gain_W"),
    ),
    "cabinet.warmest_shelf_C": Explanation(
        "Air that returns over the top to the cold side.",
        ("cabinet.air_C", "cabinet.air_flow_m3_per_h"),
    ),
    "cabinet.compartment_air_C": Explanation(
        "Air that the cold surface sees, between return and falling air.",
        ("cabinet.coldest_shelf_C", "cabinet.warmest_shelf_C"),
    ),
    "cabinet.cold_surface_C": Explanation(
        "Outside of the cold side, where the films to air and liner meet the inner resistances.",
        ("cabinet.heat_gain_W", "cabinet.compartment_air_C", "cabinet.liner_C"),
        BOX_SOURCES,
    ),
    "cabinet.liner_C": Explanation(
        "Inside skin, cooled by radiation to the cold side.", ("cabinet.air_C",), ("iso_6946",)
    ),
    "cabinet.air_flow_m3_per_h": Explanation(
        "Buoyancy around the loop equals the losses at both openings; in one space, the layer that "
        "falls off the surface.",
        ("cabinet.heat_gain_W",),
        ("box_squire_1938",),
    ),
    "cabinet.relative_humidity": Explanation(
        "Moisture coming in balances what settles on the cold surface.",
        ("cabinet.air_C", "cabinet.cold_surface_C"),
        ("chilton_colburn_1934",),
    ),
    "cabinet.frost_g_per_day": Explanation(
        "Water that leaks, door and contents bring in, settling on the cold surface.",
        ("cabinet.relative_humidity",),
        ("chilton_colburn_1934",),
    ),
    "cabinet.radiation_share": Explanation(
        "Radiation's share of the conductance from the cold surface.", ("cabinet.cold_surface_C",)
    ),
    "cabinet.gain_by_way_W": Explanation(
        "Heat by the way it comes in; latent is that of all moisture. Each way is explained by its "
        "own key.",
        ("cabinet.air_C", "room_C"),
        ("iso_6946", "gosney_olama_1975"),
    ),
    "cabinet.resistance_share": Explanation(
        "Share of each step in the resistance between source and air.", ("cabinet.heat_gain_W",)
    ),
    "running.air_C": Explanation(
        "Air when the machine never stops: heat removed equals heat gained there.",
        ("running.capacity_W",),
    ),
    "running.air_half_width_K": Explanation(
        "Half-width of the 95 % interval: each change's slope times the uncertainty of what it "
        "changes, summed as squares.",
        ("running.air_C",),
        ("hermes_melo_knabben_2010",),
    ),
    "cycling.run_fraction": Explanation(
        "Heat needed over heat removed while on; above 1 the target cannot be held.",
        ("cycling.heat_needed_W", "cycling.while_on.capacity_W"),
    ),
    "cycling.run_fraction_half_width": Explanation(
        "Half-width of the 95 % interval: each change's slope times the uncertainty of what it "
        "changes, summed as squares.",
        ("cycling.run_fraction",),
        ("hermes_melo_knabben_2010",),
    ),
    "cycling.energy_kWh_per_day": Explanation(
        "Run fraction times power times 24 hours; losses at each start left out.",
        ("cycling.run_fraction", "cycling.while_on.power_W"),
    ),
    "cycling.battery_Ah_per_day": Explanation(
        "Run fraction times 24 hours times power with the lead's loss, over the battery's voltage.",
        ("cycling.run_fraction", "cycling.while_on.power_W", "electrics.lead_loss_W"),
    ),
    "cycling.heat_needed_W": Explanation(
        "Heat that comes in while the air is at the target.", ("target_air_C", "room_C")
    ),
    "hottest_day.room_C": Explanation("Hottest room, from the build."),
    "hottest_day.run_fraction": Explanation(
        "As cycling.run_fraction, in the hottest room with the same charge.",
        ("hottest_day.while_on.capacity_W", "hottest_day.room_C"),
    ),
    "hottest_day.energy_kWh_per_day": Explanation(
        "As cycling.energy_kWh_per_day.",
        ("hottest_day.run_fraction", "hottest_day.while_on.power_W"),
    ),
    "hottest_day.running_air_C": Explanation(
        "As running.air_C, in the hottest room.", ("hottest_day.room_C",)
    ),
    "compressor.displacement_cm3": Explanation(
        "As entered, or what the rated flow, the plate or the class asks for.",
        (),
        ("shop_compressor_classes",),
    ),
    "compressor.speed_rpm": Explanation("From the mains less 3.5 % of slip, or as entered."),
    "compressor.misfit_percent": Explanation(
        "Greatest distance of the fitted model from a rated flow or power."
    ),
    "compressor.flow_uncertainty_percent": Explanation(
        "Relative standard uncertainty of flow: that of the fit, and parts for pressure ratio, "
        "suction pressure, speed and another refrigerant, added as squares.",
        (),
        ("compressor_carry_law", "shop_one_map", "cabello_2015"),
    ),
    "compressor.power_uncertainty_percent": Explanation(
        "As compressor.flow_uncertainty_percent, of power.", (), ("compressor_carry_law",)
    ),
    "compressor.shell_conductance_W_per_K": Explanation(
        "From the shell's size by free convection and radiation, or of its class.",
        (),
        ("churchill_chu_1975_plate", "shop_compressor_classes"),
    ),
    "electrics.running_current_A": Explanation(
        "As current_A of the state that the box comes to.", ("electrics.magnetising_current_A",)
    ),
    "electrics.magnetising_current_A": Explanation(
        "Root of current squared less (power over voltage) squared, at one reading or rating.",
        (),
        ("motor_phasor",),
    ),
    "electrics.power_factor": Explanation(
        "Power over voltage times current.", ("electrics.running_current_A",), ("motor_phasor",)
    ),
    "electrics.locked_rotor_current_A": Explanation(
        "As entered, or the class's multiple of the running current.",
        ("electrics.running_current_A",),
        ("shop_compressor_classes",),
    ),
    "electrics.winding_C": Explanation(
        "Shell plus the motor's own heat over 1.4 times the shell's conductance; good to 15 K.",
        ("compressor.shell_conductance_W_per_K",),
        ("compressor_limits",),
    ),
    "electrics.cooling_time_min": Explanation(
        "Mass of the shell times its specific heat over its conductance.",
        ("compressor.shell_conductance_W_per_K",),
        ("shop_compressor_classes",),
    ),
    **dict.fromkeys(
        (
            "electrics.lead_ohm",
            "electrics.lead_drop_V",
            "electrics.lead_drop_percent",
            "electrics.start_drop_percent",
            "electrics.lead_loss_W",
        ),
        Explanation(
            "Resistance of both wires at 40 °C, times running (or locked-rotor) current.",
            ("electrics.running_current_A", "electrics.locked_rotor_current_A"),
            ("copper_resistivity", "astm_b258"),
        ),
    ),
    "electrics.battery_Ah_per_day": Explanation(
        "As cycling.battery_Ah_per_day.", ("cycling.battery_Ah_per_day",)
    ),
    "charge.fill_g": Explanation(
        "Charge as entered, or the one that leaves the stated superheat at the evaporator's exit "
        "while the target is held.",
        ("cycling.while_on.evaporator_exit_superheat_K",),
        ("smith_1969_void",),
    ),
    "charge.by_place_g": Explanation(
        "Content of every volume: void fraction over quality in two-phase tubes, liquid and gas "
        "elsewhere, solution in the oil at the shell's pressure and temperature.",
        ("charge.fill_g",),
        ("smith_1969_void", "bell_2014_coolprop"),
    ),
    "charge.total_volume_cm3": Explanation("Sum of all inside volumes, oil left out."),
    **HOT_SIDE,
    **VESSEL,
    **HOLDOVER,
    **GAINS,
    **FROST,
    **AIR_WAY,
    **AT_REST,
    **AUDIT,
}


def explanation_of(path: str) -> Explanation:
    """The explanation of the report's figure at `path`.

    Raises InputError naming the nearest figures when there is none.
    """
    if path in FIGURES:
        return FIGURES[path]
    for state in MACHINE_STATES:
        name = path.removeprefix(f"{state}.")
        if name != path and name in MACHINE:
            return MACHINE[name]
    parent = path.rpartition(".")[0]
    if parent in FIGURES:
        return FIGURES[parent]
    raise refuse_unknown(path, explained_paths(), EXAMPLES)


def refuse_unknown(path: str, known: Sequence[str], examples: Sequence[str]) -> InputError:
    """The fault of a figure that no report has, with the nearest of those `known`."""
    wanted = path.strip().lower()
    near = [name for name in known if wanted and wanted in name.lower()][:4]
    near = near or get_close_matches(wanted, known, n=3, cutoff=0.4)
    return InputError(
        Fault(
            "--explain",
            f"Figure must be one of the report's; received '{path}'.",
            hint=f"Perhaps {', '.join(near)}?" if near else f"Such as {', '.join(examples)}.",
        )
    )


def explained_paths() -> tuple[str, ...]:
    """Every path that can be explained."""
    machine = [f"{state}.{name}" for state in MACHINE_STATES for name in MACHINE]
    return (*FIGURES, *machine)


def value_at(data: Mapping[str, Any], path: str) -> Any:  # noqa: ANN401 (any JSON value)
    """The report's value at a dotted path; None when it is not there."""
    here: Any = data
    for key in path.split("."):
        here = here.get(key) if isinstance(here, Mapping) else None
    return here


def inputs_of(path: str) -> tuple[str, ...]:
    """Paths of the figures that go into the one at `path`."""
    state = path.rpartition(".")[0]
    return tuple(
        f"{state}{name}" if name.startswith(".") else name for name in explanation_of(path).inputs
    )


def sources_of(case: Case) -> tuple[str, ...]:
    """Citations behind the figures of this case, in alphabetical order."""
    skipped = "compartment_C" if case.is_brine else "brine_C"
    left_out = {*(() if case.is_brine else VESSEL), *(() if case.melting else HOLDOVER)}
    explanations: Iterable[Explanation] = [
        *(entry for name, entry in FIGURES.items() if name not in left_out),
        *(entry for name, entry in MACHINE.items() if name != skipped),
    ]
    keys = {key for entry in explanations for key in entry.sources}
    known = sources()
    return tuple(sorted(known[key].citation for key in keys))
