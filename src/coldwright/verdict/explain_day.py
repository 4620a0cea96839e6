"""Where each figure of a day comes from, and each column of its rows (`rows.power_W`)."""

from __future__ import annotations

from collections.abc import Mapping

from coldwright.verdict.explain import refuse_unknown
from coldwright.verdict.explanation import Explanation

STEP = ("clock_alexander_1977",)
MACHINE = ("clock_fritsch_butland_1984", "bell_2014_coolprop")
START = ("clock_krause_bullard_1994", "clock_equalising")
CUT = "Minute after the mains fail, door shut, at which the goods' temperature passes limit_C."

FIGURES: Mapping[str, Explanation] = {
    "day_schema": Explanation("Version of this report's layout."),
    "hours": Explanation("Hours that were run, as asked with --hours (or until it was stopped)."),
    "counted_hours": Explanation("The last 24 of the hours run, or all where they are fewer."),
    "room_C": Explanation("Mean of the room's course, from the build, --room or its CSV."),
    "target_air_C": Explanation("Mean temperature of the stored air wanted, from the build."),
    "charge_g": Explanation(
        "Charge as entered, or the one that the steady balance finds.", (), ("smith_1969_void",)
    ),
    "energy_kWh_per_day": Explanation(
        "Sum of the electrical power of every minute that counts, brought to 24 hours.",
        ("power_mean_running_W", "run_fraction", "counted_hours"),
        MACHINE,
    ),
    "energy_kWh_per_year": Explanation(
        "Energy of the counted day times 365.25: every day like it.", ("energy_kWh_per_day",)
    ),
    "price_per_year": Explanation(
        "Energy of a year times the price of a kilowatt-hour, from --price or [day].",
        ("energy_kWh_per_year",),
    ),
    "run_fraction": Explanation(
        "Share of the counted time that the machine ran, each start and stop at its own instant.",
        ("starts_per_hour", "cycle_minutes"),
        STEP,
    ),
    "starts_per_hour": Explanation(
        "Starts of the counted time over its hours.", ("cycle_minutes",), ("clock_controls",)
    ),
    "cycle_minutes": Explanation("Counted minutes over starts.", ("starts_per_hour",)),
    "shortest_rest_minutes": Explanation(
        "Shortest standstill between two runs of the counted day, to the minute.",
        ("cycle_minutes",),
        ("clock_equalising",),
    ),
    "power_mean_running_W": Explanation(
        "Energy over the time that the machine ran.",
        ("energy_kWh_per_day", "run_fraction"),
        MACHINE,
    ),
    "air_mean_C": Explanation("Mean of the stored air over the counted minutes.", (), STEP),
    "air_min_C": Explanation("Coldest stored air at the end of a counted minute.", ("air_mean_C",)),
    "air_max_C": Explanation(
        "Warmest stored air at the end of a counted minute, doors included.",
        ("air_mean_C",),
        ("gosney_olama_1975",),
    ),
    "contents_mean_C": Explanation(
        "Mean of the goods, which are one store of heat behind the film on their packs.",
        ("air_mean_C",),
        ("clock_goods",),
    ),
    "contents_warmest_C": Explanation(
        "Warmest that the goods as a whole came to, warm loads mixed into them.",
        ("contents_mean_C",),
        ("clock_goods",),
    ),
    "bulb_mean_C": Explanation(
        "Mean of the bulb, which follows its place with its time constant.",
        (),
        ("clock_controls",),
    ),
    "hours_to_target": Explanation(
        "First minute from warm at which the stored air stood at its target.",
        ("target_air_C", "room_C"),
        (*STEP, *MACHINE),
    ),
    "hours_to_first_cut_out": Explanation(
        "First minute from warm at which the thermostat stopped the machine.",
        ("bulb_mean_C",),
        ("clock_controls",),
    ),
    "hours_to_contents_at_target": Explanation(
        "First minute from warm at which the goods stood at the target.",
        ("target_air_C",),
        ("clock_goods",),
    ),
    "heat_removed_W": Explanation(
        "Mean heat that the machine took out of the cold side, less what migrates back at rest.",
        ("migration_share_of_load",),
        MACHINE,
    ),
    "migration_share_of_load": Explanation(
        "Heat that refrigerant brings to the cold side at rest, over the heat removed: content of "
        "the condenser times its liquid's cooling and its gas's condensing.",
        ("starts_per_hour", "heat_removed_W"),
        START,
    ),
    "energy_closure": Explanation(
        "Heat left over in the balance of the whole run, as a share of all that flowed.", (), STEP
    ),
    "frost.g_per_day": Explanation(
        "Frost at the end of the counted day less that at its beginning.",
        ("frost.g_now",),
        ("chilton_colburn_1934", "clock_melting"),
    ),
    "frost.g_now": Explanation(
        "What settled on the cold surface less what melted at rest and what dry air took back.",
        ("frost.g_per_day",),
        ("chilton_colburn_1934", "clock_melting"),
    ),
    "frost.g_after_week": Explanation(
        "Frost now and seven more days like the counted one.", ("frost.g_now", "frost.g_per_day")
    ),
    "frost.defrost_at_mm": Explanation(
        "Thickness at which a cold surface is usually defrosted.", (), ("clock_frost",)
    ),
    "frost.days_to_defrost": Explanation(
        "Frost still missing to that thickness, over the growth of a day.",
        ("frost.defrost_at_mm", "frost.g_now", "frost.g_per_day"),
        ("clock_frost",),
    ),
    "frost.days_between_defrosts": Explanation(
        "The same from a bare surface.",
        ("frost.defrost_at_mm", "frost.g_per_day"),
        ("clock_frost",),
    ),
    "power_cut.limit_C": Explanation(
        "Chilled food's limit of 5 °C; for a box kept warmer, 3 K over its target.",
        ("target_air_C",),
        ("shop_food_codes",),
    ),
    "power_cut.hours": Explanation(
        CUT, ("power_cut.limit_C", "contents_mean_C"), ("clock_goods", "iso_6946")
    ),
    "power_cut.store_melted_hours": Explanation(
        "Minute after the mains fail at which under 1 % of the store is still frozen.",
        ("store.state_of_charge",),
        ("holdover_enthalpy_method",),
    ),
    "store": Explanation(
        "Frozen share of the filling by its temperature: what its freezing curve has as ice.",
        (),
        ("holdover_enthalpy_method", "holdover_lever_rule"),
    ),
    "battery.Ah_per_day": Explanation(
        "Power of machine and lead of every counted minute, over the voltage, for 24 hours.",
        ("energy_kWh_per_day",),
        ("copper_resistivity",),
    ),
    "battery.usable_Ah": Explanation("From --battery or [day]."),
    "battery.hours_it_lasts": Explanation(
        "Ampere-hours that may be drawn over those of an hour of the counted day.",
        ("battery.usable_Ah", "battery.Ah_per_day"),
    ),
}

ROWS: Mapping[str, Explanation] = {
    "minute": Explanation("End of the minute, counted from the beginning."),
    "running": Explanation("1 while the machine runs at the minute's end."),
    "power_W": Explanation(
        "Mean of the minute: the map's electrical power at the node's and the condenser's "
        "temperature, for the share of the minute that it ran.",
        ("rows.evaporating_C", "rows.condensing_C"),
        MACHINE,
    ),
    "current_A": Explanation(
        "Root of (power over voltage) squared and the magnetising current squared, while it ran.",
        ("rows.power_W",),
        ("motor_phasor",),
    ),
    "suction_Pa": Explanation(
        "Saturation at the running balance's evaporating temperature; at rest at the cold side's, "
        "or less where the charge is all gas; between by the share of the charge that is back.",
        ("rows.evaporating_C",),
        ("bell_2014_coolprop", *START),
    ),
    "discharge_Pa": Explanation(
        "As the suction, with the condensing temperature.",
        ("rows.condensing_C",),
        ("bell_2014_coolprop", *START),
    ),
    "evaporating_C": Explanation(
        "Saturation of the suction gauge.", ("rows.suction_Pa",), ("bell_2014_coolprop",)
    ),
    "condensing_C": Explanation(
        "Saturation of the discharge gauge.", ("rows.discharge_Pa",), ("bell_2014_coolprop",)
    ),
    "brine_C": Explanation(
        "Heat that the cold side has taken up, over its heat capacity (a store's by its enthalpy).",
        ("rows.cold_surface_C",),
        STEP,
    ),
    "cold_metal_C": Explanation(
        "Heat that plate or tube has taken up, over its heat capacity.",
        ("rows.cold_surface_C",),
        STEP,
    ),
    "cold_surface_C": Explanation(
        "Where the ways from node, air and liner meet; held at 0 °C while frost melts.",
        ("rows.air_C",),
        ("churchill_chu_1975_plate", "clock_melting"),
    ),
    "air_C": Explanation(
        "Mean of the stored air: walls, gaps, doors, goods and cold surface.",
        ("rows.cold_surface_C", "rows.contents_C", "rows.room_C"),
        ("iso_6946", "gosney_olama_1975", *STEP),
    ),
    "low_shelf_C": Explanation(
        "Air that falls off the cold surface: return air less heat over its capacity flow.",
        ("rows.air_C", "rows.cold_surface_C"),
        ("box_squire_1938",),
    ),
    "high_shelf_C": Explanation(
        "Air that returns over the top to the cold surface.",
        ("rows.air_C", "rows.cold_surface_C"),
        ("box_squire_1938",),
    ),
    "contents_C": Explanation(
        "Goods as one store of heat behind the film on their packs.",
        ("rows.air_C",),
        ("clock_goods",),
    ),
    "return_line_C": Explanation(
        "The balance's return gas while running; the room's temperature at rest.", ("rows.room_C",)
    ),
    "discharge_line_C": Explanation(
        "The balance's discharge gas, colder by half of what the shell still lacks.",
        ("rows.shell_C", "rows.room_C"),
        ("clock_shell",),
    ),
    "shell_C": Explanation(
        "Shell with motor as one mass of steel that goes toward the balance's shell temperature.",
        ("rows.power_W", "rows.room_C"),
        ("clock_shell",),
    ),
    "condenser_C": Explanation(
        "Tube with its sheet or wires: heat of the balance against the heat to the room.",
        ("rows.room_C",),
        ("churchill_chu_1975_plate",),
    ),
    "bulb_C": Explanation(
        "Follows its place with its time constant.", ("rows.air_C",), ("clock_controls",)
    ),
    "relative_humidity": Explanation(
        "Of the stored air: what gaps, doors and goods bring less what settles.",
        ("rows.air_C", "rows.cold_surface_C"),
        ("chilton_colburn_1934", "fluids_hyland_wexler_1983"),
    ),
    "frost_g": Explanation(
        "What settled less what melted and what dry air took back.",
        ("rows.cold_surface_C", "rows.relative_humidity"),
        ("chilton_colburn_1934", "clock_melting"),
    ),
    "room_C": Explanation("The room's course of the plan."),
    "state_of_charge": Explanation(
        "Frozen share of the store by its temperature.",
        ("rows.brine_C",),
        ("holdover_enthalpy_method",),
    ),
}
EXAMPLES = ("energy_kWh_per_day", "power_cut.hours", "rows.power_W")


def day_explanation_of(path: str) -> Explanation:
    """The explanation of the figure of a day at `path`, or of a column at `rows.NAME`.

    Raises InputError naming the nearest figures when there is none.
    """
    known = {**FIGURES, **{f"rows.{name}": entry for name, entry in ROWS.items()}}
    for name in (path, path.rpartition(".")[0]):
        if name in known:
            return known[name]
    raise refuse_unknown(path, tuple(known), EXAMPLES)
