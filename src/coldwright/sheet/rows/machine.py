"""Rows about how the compressor is known, its motor, lead and battery."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, Protocol

Row = tuple[str, str, str]
WAYS = {
    "rated_points": "rated points",
    "map": "a ten-coefficient map",
    "class": "its class alone",
    "nameplate": "a donor's nameplate",
}


class FigureWriter(Protocol):
    """What writes a figure of the report by its dotted path."""

    data: Mapping[str, Any]

    def figure(self, path: str) -> str:
        """The figure with its unit."""


def compressor_rows(write: FigureWriter) -> list[Row]:
    """How well the compressor is known, and what its motor and lead bear."""
    stated, electric = write.data["compressor"], write.data["electrics"]
    known = f"by {WAYS[stated['described_by']]}, rated on {stated['rated_refrigerant']}"
    misfit = stated["misfit_percent"]
    missed = "" if misfit is None else f"; the fit misses its data by {misfit:.1f} % at most"
    rows: list[Row] = [
        ("swept in a turn", write.figure("compressor.displacement_cm3"), known),
        (
            "flow is known to",
            f"± {2.0 * stated['flow_uncertainty_percent']:.0f} %",
            f"power ± {2.0 * stated['power_uncertainty_percent']:.0f} % (95 %)" + missed,
        ),
    ]
    if electric["winding_C"] is not None:
        rows.append(("winding", write.figure("electrics.winding_C"), "estimate, ± 15 K"))
    if electric["locked_rotor_current_A"] is not None:
        locked = write.figure("electrics.locked_rotor_current_A")
        rows.append(("locked rotor", locked, f"at each start; {electric['locked_rotor_from']}"))
    rest = f"{electric['cooling_time_min']:.0f} min"
    rows.append(("shell cools to a third in", rest, "when it stops"))
    if electric["lead_drop_percent"] is not None:
        drop = f"{electric['lead_drop_percent']:.1f} %"
        rows.append(("drop in the lead", drop, f"{electric['lead_loss_W']:.1f} W lost"))
    return rows


def battery_rows(write: FigureWriter) -> list[Row]:
    """The battery's drain, where there is one."""
    drain = write.data["electrics"]["battery_Ah_per_day"]
    if drain is None:
        return []
    return [("from the battery", f"{drain:.0f} Ah a day", "lead included, charger's loss left out")]
