"""A day's figures in groups: from warm, and the day that is counted."""

from __future__ import annotations

from coldwright.sheet.writer import Data, Row, Writer


def day_sections(write: Writer) -> list[tuple[str, list[Row]]]:
    """The groups of a day's figures, as (label, figure, remark)."""
    f, data = write.figure, write.data
    counted = f"the last {data['counted_hours']:.0f} h"

    def minutes(value: float | None) -> str:
        return "none" if value is None else f"{value:.0f} min"

    def after(value: float | None) -> str:
        return "not reached" if value is None else f"{value:.1f} h"

    watts = data["power_mean_running_W"] or 0.0
    day_rows = [
        ("running", f("run_fraction"), ""),
        ("starts", f"{data['starts_per_hour']:.2f} an hour", ""),
        ("one cycle", minutes(data["cycle_minutes"]), "from start to start"),
        ("shortest standstill", minutes(data["shortest_rest_minutes"]), ""),
        ("energy", f("energy_kWh_per_day"), f"{data['energy_kWh_per_year']:.0f} kWh a year"),
        ("power while running", write.quantity(watts, "power"), "mean"),
        ("stored air, mean", f("air_mean_C"), f"{f('air_min_C')} to {f('air_max_C')}"),
        ("goods, mean", f("contents_mean_C"), f"warmest {f('contents_warmest_C')}"),
        ("frost", write.written("x_g_per_day", data["frost"]["g_per_day"]), _frost_words(data)),
    ]
    frost = data["frost"]
    if not frost["clears_itself"]:
        week = write.written("x_g_per_day", frost["g_after_week"]).removesuffix(" a day")
        day_rows.append(("frost after a week", week, _defrost_words(frost)))
    if data["store"] is not None:
        day_rows.append(_store_row(data))
    if data["battery"] is not None:
        drawn = data["battery"]
        lasts = drawn["hours_it_lasts"]
        rest = "" if lasts is None else f"; {drawn['usable_Ah']:g} Ah last {lasts:.1f} h"
        amount = f"{drawn['Ah_per_day']:.0f} Ah a day"
        day_rows.append(("from the battery", amount, f"lead included{rest}"))
    if data["price_per_year"] is not None:
        day_rows.append(("price of a year", f"{data['price_per_year']:.2f}", "of its energy"))
    sections = [(f"The day ({counted})", day_rows)]
    if data["from"] == "warm":
        pull_down = [
            ("stored air at target", after(data["hours_to_target"]), f("target_air_C")),
            ("goods at target", after(data["hours_to_contents_at_target"]), ""),
            ("first cut-out", after(data["hours_to_first_cut_out"]), ""),
        ]
        sections.insert(0, ("From warm", pull_down))
    return sections


def _store_row(data: Data) -> Row:
    held = data["store"]
    between = f"{_share(held['state_of_charge_min'])} to {_share(held['state_of_charge_max'])}"
    melts = data["power_cut"]["store_melted_hours"]
    then = "" if melts is None else f"; melts in {melts:.1f} h without power"
    return "store frozen", _share(held["state_of_charge"]), f"{between}{then}"


def _share(value: float) -> str:
    return f"{100.0 * value:.0f} %"


def _defrost_words(frost: Data) -> str:
    return f"from now {frost['defrost_at_mm']:.0f} mm in {frost['days_to_defrost']:.1f} days"


def _frost_words(data: Data) -> str:
    days = data["frost"]["days_between_defrosts"]
    if days is None:
        return "clears itself at rest"
    return f"{data['frost']['defrost_at_mm']:.0f} mm thick in {days:.1f} days from bare"
