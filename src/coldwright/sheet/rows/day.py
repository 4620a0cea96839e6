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


def _frost_words(data: Data) -> str:
    days = data["frost"]["days_between_defrosts"]
    if days is None:
        return "clears itself at rest"
    return f"{data['frost']['defrost_at_mm']:.0f} mm thick in {days:.1f} days from bare"
