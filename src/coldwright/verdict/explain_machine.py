"""Where the figures of the machine come from, the same in each of its states."""

from __future__ import annotations

from collections.abc import Mapping

from coldwright.verdict.explanation import Explanation

BALANCE = (
    "found by the balance: the capillary passes what the compressor draws, the parts hold the "
    "charge, and return gas, exchanger and shell close their heat balances"
)
BOX_SOURCES = ("iso_6946", "churchill_chu_1975_plate", "bar_cohen_rohsenow_1984")

MACHINE: Mapping[str, Explanation] = {
    "evaporating_C": Explanation(
        f"Evaporating temperature, {BALANCE}.",
        (".mass_flow_kg_per_h", ".capacity_W", ".condensing_C", "charge.fill_g"),
        ("gungor_winterton_1987", "gnielinski_2013_tube", "smith_1969_void"),
    ),
    "condensing_C": Explanation(
        f"Condensing temperature, {BALANCE}.",
        (".condenser_heat_W", "room_C", "charge.fill_g"),
        (
            "dobson_chato_1998",
            "duffie_beckman",
            "churchill_chu_1975_plate",
            "bar_cohen_rohsenow_1984",
        ),
    ),
    "suction_Pa": Explanation(
        "Saturation pressure at the evaporating temperature (absolute).",
        (".evaporating_C",),
        ("bell_2014_coolprop",),
    ),
    "discharge_Pa": Explanation(
        "Saturation pressure at the condensing temperature (absolute).",
        (".condensing_C",),
        ("bell_2014_coolprop",),
    ),
    "mass_flow_kg_per_h": Explanation(
        "Pumping efficiency, less re-expansion from the clearance, times displacement, turns and "
        "density in the cylinder, after the shell's warmth and the suction valve.",
        (".suction_Pa", ".discharge_Pa", ".return_gas_C", ".shell_C"),
        ("stoecker_jones_1982", "bell_2014_coolprop", "shop_compressor_classes"),
    ),
    "capacity_W": Explanation(
        "Heat that the evaporator takes from its source: length times conductance times "
        "difference of the wet part, plus the approach of the dry part.",
        (".evaporating_C", ".mass_flow_kg_per_h"),
        ("gungor_winterton_1987", "gnielinski_2013_tube"),
    ),
    "power_W": Explanation(
        "Constant loss, flow times (isentropic work over the fitted efficiency, and valve work), "
        "and a motor loss that grows as the square of that.",
        (".mass_flow_kg_per_h", ".suction_Pa", ".discharge_Pa"),
        ("bell_2014_coolprop", "shop_compressor_classes"),
    ),
    "current_A": Explanation(
        "Root of (power over voltage) squared plus magnetising current squared.",
        (".power_W",),
        ("motor_phasor",),
    ),
    "evaporator_exit_superheat_K": Explanation(
        "Temperature at the evaporator's exit less the evaporating temperature; 0 when wet.",
        (".evaporating_C", ".capacity_W", ".mass_flow_kg_per_h"),
        ("gnielinski_2013_tube",),
    ),
    "evaporator_exit_quality": Explanation(
        "Vapour share at the evaporator's exit: 1 when dry.", (".capacity_W", ".mass_flow_kg_per_h")
    ),
    "subcooling_K": Explanation(
        "Condensing temperature less that of the liquid leaving the condenser; 0 when gas leaves "
        "with it.",
        (".condensing_C", ".condenser_heat_W"),
        ("gnielinski_2013_tube", "dobson_chato_1998"),
    ),
    "return_gas_C": Explanation(
        "Gas at the shell: evaporator's exit plus the exchanger's heat plus what the suction line "
        "takes from the room.",
        (".evaporator_exit_superheat_K", ".mass_flow_kg_per_h"),
        ("incropera_heat_exchangers", "gnielinski_2013_tube"),
    ),
    "return_quality": Explanation(
        "Vapour share at the shell: under 1 liquid comes back.", (".evaporator_exit_quality",)
    ),
    "discharge_gas_C": Explanation(
        "Gas at the shell's outlet: work of compression, less what the shell takes from it.",
        (".power_W", ".mass_flow_kg_per_h", ".shell_C"),
        ("bell_2014_coolprop", "shop_compressor_classes"),
    ),
    "shell_C": Explanation(
        "Shell temperature at which power plus enthalpy of the return gas less that of the "
        "discharge equals the loss to the room.",
        (".power_W", ".return_gas_C", ".discharge_gas_C", "room_C"),
        ("shop_compressor_classes",),
    ),
    "brine_C": Explanation(
        "Brine temperature (a holdover's filling): the one that holds the target (cycling), at "
        "which heat removed equals heat gained (running), or the room's (start).",
        ("cabinet.heat_gain_W", ".capacity_W"),
        BOX_SOURCES,
    ),
    "compartment_C": Explanation(
        "Effective temperature around the cold surface: air and liner weighted by their films.",
        ("cabinet.heat_gain_W", ".capacity_W"),
        BOX_SOURCES,
    ),
    "condenser_heat_W": Explanation(
        "Flow times the enthalpy from discharge gas to what leaves the condenser.",
        (".mass_flow_kg_per_h", ".discharge_gas_C", ".subcooling_K"),
        ("bell_2014_coolprop",),
    ),
    "shell_liquid_g": Explanation(
        "Liquid refrigerant lying in a shell that flood-back has cooled to saturation.",
        (".shell_C", ".evaporating_C"),
    ),
    "residual": Explanation(
        "Greatest relative residual of flow, charge and the three heat balances; under 1e-8 is "
        "converged."
    ),
}

GATHERED = (
    "cabinet.gain_by_way_W",
    "cabinet.resistance_share",
    "charge.by_place_g",
    "hot_side.resistance_share",
    "hot_side.zone_share",
)
