"""How the figures of `calc capillary` read, and what is said beside them."""

from __future__ import annotations

from coldwright.cli.calc.answer import Answer, Data, Row, Writer, cited, noticed
from coldwright.cli.calc.capillary_entries import Asked
from coldwright.cli.calc.capillary_figures import TOO_LONG
from coldwright.cli.calc.saturation import HISTORIC
from coldwright.errors import Notice
from coldwright.heat.capillary_correlation import QUALITY, SUBCOOLING
from coldwright.parts.capillary_check import CORRELATED
from coldwright.sources import range_notices
from coldwright.units import Kind, System

WARNED = ("local_law", "no_venting", "flammable_refrigerant")
LONGEST_SHOWN = 15.0  # m
# Formula and model may stand this far apart before it is said.
FAR_APART = 0.15


def show_flow(data: Data, asked: Asked, system: System, atmosphere: float, as_json: bool) -> None:
    """Print the flow of one tube."""
    write = Writer(data, system, atmosphere)
    title = (
        f"{data['refrigerant']} through {write.figure('bore_m')} bore, "
        f"{write.figure('length_m')} long, {_between(write)}"
    )
    notes = [*asked.remarks, *_meaning(data), *_wording(asked)]
    cautions = [*_notices(data), *_cautions(data)]
    Answer(title, data, _flow_rows(data, write), notes, cautions, _sources(asked)).show(as_json)


def show_lengths(
    data: Data, asked: Asked, system: System, atmosphere: float, as_json: bool
) -> None:
    """Print the length of each stock bore."""
    write = Writer(data, system, atmosphere)
    title = f"{data['refrigerant']}, {write.figure('flow_kg_per_h')}, {_between(write)}"
    shown = [one for one in data["bores"] if not _beyond(one)]
    rows = [_length_row(one, write) for one in shown]
    wider = len(data["bores"]) - len(shown)
    reach = write.si(LONGEST_SHOWN, Kind.length)
    notes = [
        *asked.remarks,
        *([f"{wider} wider bores would need more than {reach} each."] if wider else []),
        "The interval counts the model's own spread and a bore true to ± 0.02 mm. Cut long, try, "
        "and shorten: a tube that is too short cannot be mended.",
        "Below 1 m a tube scatters with its ends, above 6 m it is long to place and slow to "
        "equalise: common practice, no source.",
        *_wording(asked),
    ]
    Answer(title, data, rows, notes, _cautions(data), _sources(asked)).show(as_json)


def _between(write: Writer) -> str:
    data = write.data
    before = (
        f"{100.0 * data['inlet_quality']:.3g} % gas"
        if data["inlet_quality"] > 0.0
        else f"{write.figure('subcooling_K')} subcooled"
    )
    return (
        f"{write.figure('condensing_C')} condensing, {before}, "
        f"{write.figure('evaporating_C')} evaporating"
    )


def _flow_rows(data: Data, write: Writer) -> list[Row]:
    if data["mass_flow_kg_per_h"] is None:
        return [("flow", "not found", "no flow fits this tube between these ends")]
    low, high = write.figure("low_kg_per_h"), write.figure("high_kg_per_h")
    quality = f"{100.0 * data['exit_quality']:.1f} %"
    entering = f"{100.0 * data['evaporator_quality']:.1f} %"
    rows: list[Row] = [
        ("flow", write.figure("mass_flow_kg_per_h"), f"{low} to {high} for 95 of 100"),
        ("  of it by the model", f"± {write.figure('model_half_width_kg_per_h')}", ""),
        ("  of it by the bore", f"± {write.figure('bore_half_width_kg_per_h')}", ""),
        ("cooling", write.figure("capacity_W"), "in the evaporator, to the gas that leaves it"),
        ("end of the tube", write.figure("exit_pressure_Pa"), _choke(data, write)),
        ("gas at its end", quality, "by mass"),
        ("gas at the evaporator", entering, "by mass"),
        (
            "liquid only",
            write.figure("flash_position_m"),
            "gas enters with it" if data["inlet_quality"] else "from the inlet; then it flashes",
        ),
    ]
    if data["flow_gain_percent"] is not None:
        gain = f"{data['flow_gain_percent']:+.0f} %"
        rows += [
            ("without the exchanger", write.figure("adiabatic_kg_per_h"), f"the exchanger: {gain}"),
            ("heat exchanged", write.figure("exchanged_W"), "from capillary to return gas"),
            ("return gas", write.figure("return_gas_C"), "behind the exchanger"),
        ]
    for key, label in (("correlation", "correlation"), ("algebraic", "algebraic formula")):
        value = data[f"{key}_kg_per_h"]
        base = data["adiabatic_kg_per_h"]
        if value is not None and base:
            beside = f"the model without exchange: {100.0 * (base / value - 1.0):+.0f} %"
            rows.append((label, write.figure(f"{key}_kg_per_h"), beside))
    return rows


def _choke(data: Data, write: Writer) -> str:
    if data["choked"]:
        return f"choked: does not feel the {write.figure('evaporating_pressure_Pa')} behind it"
    return "not choked: the evaporator's pressure reaches in"


def _meaning(data: Data) -> list[str]:
    if data["mass_flow_kg_per_h"] is None:
        return []
    share = 100.0 * data["bore_half_width_kg_per_h"] / data["mass_flow_kg_per_h"]
    notes = [
        f"The bore alone is worth ± {share:.0f} % of flow: gauge the piece in hand, or time "
        "nitrogen through it beside a piece that is known."
    ]
    if data["flash_position_m"] > 0.98 * data["length_m"]:
        notes.append("The tube holds liquid nearly to its end: little throttling is left.")
    if data["inlet_quality"] > 0.0:
        notes.append(
            "Gas at the inlet cuts the flow hard; in a running machine the capillary then passes "
            "less until liquid gathers before it again."
        )
    return notes


def _wording(asked: Asked) -> list[str]:
    notes = []
    if asked.refrigerant.name in HISTORIC:
        notes.append(
            f"{asked.refrigerant.name} is historic: for old machines' figures, not to fill."
        )
    if asked.exchanger is not None:
        notes.append(
            "The exchanger's gas film decides; heat from the room to the joined length is left out."
        )
    if asked.late_flashing:
        notes.append(
            "Late flashing is counted by a formula measured on R12; without it the model stands "
            "nearer to what was measured on R134a."
        )
    return notes


def _notices(data: Data) -> list[Data]:
    """What the correlation beside the model is worth here."""
    found: list[Notice] = []
    if data["inlet_quality"] > QUALITY[1]:
        found += range_notices("two_phase_capillary_flow", quality=data["inlet_quality"])
    elif data["subcooling_K"] > SUBCOOLING[1]:
        found += range_notices("subcooled_capillary_flow", subcooling=data["subcooling_K"])
    if found:
        gone = "; no value is given.".join(found[0].text.rsplit("; the value is extrapolated.", 1))
        found = [Notice(found[0].code, found[0].severity, gone, found[0].source)]
    elif data["refrigerant"] not in CORRELATED:
        found.append(
            Notice(
                "correlation_refrigerant",
                "info",
                f"The correlation was not fitted on {data['refrigerant']}; its value is "
                "extrapolated and the model's interval is wider.",
                "wolf_bittle_pate_1995",
            )
        )
    if data["correlation_bridged"] and data["correlation_kg_per_h"] is not None:
        found.append(
            Notice(
                "correlation_bridge",
                "info",
                "The correlation's branches do not meet at saturation: its value lies between 1 K "
                "of subcooling and 3 % of gas.",
                "wolf_bittle_pate_1995",
            )
        )
    return [noticed(each) for each in (*found, *_disagreement(data))]


def _disagreement(data: Data) -> list[Notice]:
    """Said where model and correlation are far apart."""
    base, value = data["adiabatic_kg_per_h"], data["correlation_kg_per_h"]
    if not base or not value or abs(base / value - 1.0) < FAR_APART:
        return []
    apart = 100.0 * (base / value - 1.0)
    text = f"Model and correlation stand {apart:+.0f} % apart here: trust neither closer than that."
    return [Notice("correlation_apart", "warning", text, "wolf_bittle_pate_1995")]


def _cautions(data: Data) -> list[Data]:
    from coldwright.shop.cautions import cautions_for  # noqa: PLC0415 (slow to import)
    from coldwright.shop.refrigerant_safety import safety  # noqa: PLC0415

    found = cautions_for(safety(data["refrigerant"]).safety_class)
    return [noticed(each) for each in found if each.code in WARNED]


def _beyond(one: Data) -> bool:
    """Whether a bore is too wide to be worth a line."""
    if one["length_m"] is None:
        return bool(one["reason"] == TOO_LONG)
    return bool(one["length_m"] > LONGEST_SHOWN)


def _length_row(one: Data, write: Writer) -> Row:
    bore = write.si(one["bore_m"], Kind.length)
    label = f"{bore}, as given" if one["name"] == "as given" else bore
    if one["length_m"] is None:
        return (label, "none", str(one["reason"]))
    usual = "" if one["usual"] else "; out of the usual 1 to 6 m"
    between = "interval not known: a bore a little off does not do"
    if one["low_m"] is not None:
        low, high = (write.si(one[key], Kind.length) for key in ("low_m", "high_m"))
        between = f"{low} to {high}"
    return (label, write.si(one["length_m"], Kind.length), f"{between}{usual}")


def _sources(asked: Asked) -> list[str]:
    keys = [
        "stoecker_jones_1982",
        "churchill_1977_friction",
        "mcadams_1942_viscosity",
        "hermes_melo_knabben_2010",
        "wolf_bittle_pate_1995",
        "hermes_2010_algebraic",
        "capillary_bore_tolerance",
    ]
    if asked.exchanger is not None:
        keys.append("gnielinski_2013_tube")
    if asked.exchanger == "inside":
        keys.append("petukhov_roizen_1964_annulus")
    if asked.late_flashing:
        keys.append("chen_1990_flashing")
    return cited(*keys)
