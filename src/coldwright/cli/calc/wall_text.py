"""How the figures of `calc wall` read, and what is said beside them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from coldwright.cli.calc.answer import Answer, Data, Row, Writer, cited
from coldwright.units import Kind, System

if TYPE_CHECKING:
    from coldwright.cli.calc.wall import AskedWall


def show(data: Data, asked: AskedWall, system: System, remarks: list[str], as_json: bool) -> None:
    """Print the answer."""
    write = Writer(data, system)
    what = "Box, inside" if asked.is_box else "Wall, inside"
    title = f"{what} at {write.figure('inside_C')} in a room of {write.figure('room_C')}"
    notes = [*remarks, *_meaning(data, asked)]
    Answer(title, data, _rows(data, asked, write), notes, sources=_sources(data, asked)).show(
        as_json
    )


def _rows(data: Data, asked: AskedWall, write: Writer) -> list[Row]:
    out = data["heat_W"] < 0.0
    rows: list[Row] = [
        ("heat", write.figure("heat_W"), "out of the box" if out else "into the box"),
        ("conductance", write.figure("conductance_W_per_K"), "inside air to room air"),
        ("transmittance U", write.figure("transmittance_W_m2K"), "on the inside area"),
        ("inside area", write.figure("area_m2"), ""),
        ("resistance of layers", write.figure("resistance_m2K_per_W"), "films come on top"),
    ]
    for layer in data["layers"]:
        one = Writer(layer, write.system)
        rows.append(
            (
                f"  {layer['name']}, {one.figure('thickness_m')}",
                one.figure("resistance_m2K_per_W"),
                f"{layer['share_percent']:.0f} %; outer side at {one.figure('outer_side_C')}",
            )
        )
    rows.append(("outer skin", write.figure("outer_skin_C"), "mean of an upright wall"))
    if asked.is_box:
        rows.append(("coldest face", write.figure("coldest_skin_C"), "mean of its outside"))
    if data["dew_point_C"] is None:
        limit = write.figure("sweats_above_percent")
        rows.append(("sweats above", limit, "relative humidity of the room"))
    else:
        rows.append(("dew point of the room", write.figure("dew_point_C"), ""))
        sweats = "sweats" if data["sweats"] else "stays dry"
        rows.append(("skin above dew point", write.figure("dew_margin_K"), sweats))
    rows += _declined(data, write)
    return rows


def _declined(data: Data, write: Writer) -> list[Row]:
    """The penalty of age and wet, and by what factors."""
    found = []
    for state, one in data["declined"].items():
        more = one["heat_W"] / data["heat_W"] - 1.0 if data["heat_W"] else 0.0
        heat = write.quantity(one["heat_W"], one["heat_half_width_W"], Kind.heat_flow)
        factors = ", ".join(
            f"{name} x {each['factor']:g} ± {each['half_width']:g}"
            for name, each in one["factors"].items()
            if each["factor"] > 1.0
        )
        found.append((f"heat, insulation {state}", heat, f"{100.0 * more:+.0f} %: {factors}"))
    return found


def _meaning(data: Data, asked: AskedWall) -> list[str]:
    notes = []
    doubt = data.get("half_widths", {}).get("dew_margin_K", 0.0)
    if data["sweats"]:
        notes.append("The outside is below the room's dew point: it sweats. Insulate more.")
    elif data["sweats"] is not None and data["dew_margin_K"] < doubt:
        notes.append("The margin to sweating is within its own doubt: take it as near sweating.")
    wet = _wet_layer(data)
    if wet:
        notes.append(
            f"The room's dew point lies inside the {wet}: vapour that gets in from outside settles "
            "there and wets it. The tight layer belongs on the warm side."
        )
    if data["heat_W"] < 0.0:
        notes.append("The inside is warmer than the room: the heat goes out.")
    scope = "Door, gasket and leaks are left out" if asked.is_box else "Edges are left out"
    notes.append(
        f"{scope}; at a frame, a strap or a corner the skin is colder than this mean. Where the "
        "air stands (behind the box) the films are weaker and the skin colder still."
    )
    return notes


def _wet_layer(data: Data) -> str:
    """The layer in which the room's dew point lies; nothing where it lies in a film."""
    dew = data["dew_point_C"]
    if dew is None:
        return ""
    inner = data["inner_skin_C"]
    for layer in data["layers"]:
        if inner < dew <= layer["outer_side_C"]:
            return str(layer["name"])
        inner = layer["outer_side_C"]
    return ""


def _sources(data: Data, asked: AskedWall) -> list[str]:
    keys = ["iso_6946", "calc_still_film_doubt"]
    keys += [layer.source for layer in asked.layers if layer.source]
    if asked.is_box:
        keys.append("langmuir_adams_meikle_1913")
    if data["dew_point_C"] is not None:
        keys.append("fluids_hyland_wexler_1983")
    keys += [layer.condition_source for layer in asked.layers if layer.condition_source]
    if data["declined"]:
        keys += [layer.decline.source for layer in asked.layers if layer.decline is not None]
    return cited(*keys)
