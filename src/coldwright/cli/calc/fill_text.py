"""The figures of `calc fill`, and how they read."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import asdict

from coldwright.build.result import Build
from coldwright.build.translation.plant import Translation, translate
from coldwright.cli.calc.answer import ICE_POINT, Answer, Data, Row, Writer, cited, noticed
from coldwright.cli.calc.fill_signs import sign_notes, sign_rows
from coldwright.errors import Fault, InputError
from coldwright.plant.balance import REASONS, Balance
from coldwright.sheet.rows.rest import rest_rows
from coldwright.shop.cautions import cautions_for
from coldwright.shop.refrigerant_safety import safety
from coldwright.units import Kind, System
from coldwright.verdict.at_rest import at_rest, at_rest_figures
from coldwright.verdict.checks.circuit import FIND_IT, full_tubes, too_full
from coldwright.verdict.figures import at_lane
from coldwright.verdict.fill_window import (
    STARVED_SUPERHEAT,
    FillWindow,
    Rungs,
    fill_window,
)

GRAM = 1e3
WARNED = ("local_law", "no_venting", "flammable_refrigerant")
SOURCES = (
    "rice_1987_charge",
    "smith_1969_void",
    "fill_window_limits",
    "calc_settled_mass",
    "oil_dilution_limit",
)
STATES = {
    "held_g": "target held",
    "running_g": "never stops",
    "hot_pull_down_g": "start, all warm",
}
WORTH = (
    ("evaporating_K_per_g", "evaporating", Kind.temperature_difference, "while the target is held"),
    ("capacity_W_per_g", "cooling", Kind.heat_flow, "while the target is held"),
    ("power_W_per_g", "power", Kind.power, "while the target is held"),
    ("running_air_K_per_g", "air", Kind.temperature_difference, "where it never stops"),
    ("hot_pull_down_capacity_W_per_g", "cooling", Kind.heat_flow, "at the hottest start"),
)
# A place that never holds more than this of the charge is told with the others like it.
LEAST_SHARE = 0.02
# The answer's own doubt: Rice 1987 on the choice of void fraction.
CONTENT_DOUBT = 0.15


def answer_of(build: Build, options: Mapping[str, float | None]) -> Data:
    """The fill window as plain data. Raises InputError for a charge that fills the tubes."""
    translation = translate(build, **options)
    charge_that_fits(build, translation, options["charge"])
    window = fill_window(build, translation)
    hot, cold = window.hot_pull_down, window.coldest
    operation = window.operation
    return {
        "refrigerant": build.refrigerant.name,
        "charge_g": window.charge * GRAM,
        "charge_found": window.found,
        "least_g": None if window.least is None else window.least * GRAM,
        "most_g": None if window.most is None else window.most * GRAM,
        "window_open": window.open,
        "width_g": _width(window),
        "least_is_bound": window.least_is_bound,
        "most_is_bound": window.most_is_bound,
        "verdict": _verdict(window),
        "best_hot_pull_down_g": hot.best_charge * GRAM,
        "best_coldest_g": cold.best_charge * GRAM,
        "hot_room_C": hot.room_temperature - ICE_POINT,
        "cool_room_C": cold.room_temperature - ICE_POINT,
        "coldest_source_C": cold.source_temperature - ICE_POINT,
        "one_gram": asdict(window.gram),
        "signs": asdict(window.signs),
        "places": {
            "held_g": _grams(window, operation.cycling.balance),
            "running_g": _grams(window, operation.running.balance),
            "hot_pull_down_g": _grams(window, window.operation.pull_down),
        },
        "at_rest": _at_rest(build, translation, window),
        "ladder": _ladder(hot, cold),
    }


def charge_that_fits(build: Build, translation: Translation, asked: float | None) -> None:
    """Raise InputError for a charge (`asked` by --fill, or the file's) that fills the tubes."""
    if translation.charge is None:
        return
    given = at_lane(translation.charge, 0)
    if given > full_tubes(translation):
        field = "refrigerant.fill" if asked is None else "--fill"
        line = build.line_of(field) if asked is None else None
        text = too_full(translation, given, build.units)
        raise InputError(Fault(field, text, line, FIND_IT.rstrip(".")))


def _at_rest(build: Build, translation: Translation, window: FillWindow) -> Data | None:
    """The stopped machine, from the state that the box comes to."""
    o = window.operation
    held = at_lane(o.cycling.run_fraction, 0) <= 1.0
    found = at_rest(build, translation, o.cycling if held else o.running, window.charge)
    return at_rest_figures(found)


def _grams(window: FillWindow, balance: Balance) -> dict[str, float]:
    return {name: mass * GRAM for name, mass in window.places(balance).items()}


def _width(window: FillWindow) -> float | None:
    if window.least is None or window.most is None:
        return None
    return (window.most - window.least) * GRAM


def _verdict(window: FillWindow) -> str:
    """Where the charge stands."""
    if window.most is not None and window.charge > window.most and not window.most_is_bound:
        return "liquid returns"
    if window.most is None:
        return "liquid returns"
    if window.least is None or window.charge < window.least:
        return "starved"
    return "within"


def _ladder(hot: Rungs, cold: Rungs) -> list[Data]:
    """Both states at each charge tried; nulls where there is no balance."""
    rows = []
    for index, charge in enumerate(hot.charge):
        there, here = bool(hot.settled[index]), bool(cold.settled[index])
        low = cold.balance.evaluation
        rows.append(
            {
                "charge_g": float(charge) * GRAM,
                "hot_superheat_K": float(hot.superheat[index]) if there else None,
                "hot_capacity_W": float(hot.capacity[index]) if there else None,
                "hot_reason": REASONS[int(hot.balance.reason[index])],
                "cold_return_quality": float(cold.return_quality[index]) if here else None,
                "cold_capacity_W": float(cold.capacity[index]) if here else None,
                "cold_evaporating_C": float(low.unknowns.evaporating_temperature[index]) - ICE_POINT
                if here
                else None,
                "cold_reason": REASONS[int(cold.balance.reason[index])],
            }
        )
    return rows


def show(data: Data, build: Build, system: System, as_json: bool) -> None:
    """Print the answer."""
    write = Writer(data, system, build.site.atmospheric_pressure)
    title = f"{build.name}: {write.figure('charge_g')} of {data['refrigerant']}"
    found = cautions_for(safety(data["refrigerant"]).safety_class)
    cautions = [noticed(each) for each in found if each.code in WARNED]
    rows = [
        *_window_rows(data, write),
        *sign_rows(data["signs"], write),
        *_worth_rows(data, write),
        *_place_rows(data, write),
    ]
    rows += rest_rows(data["at_rest"], write.value)
    sources = cited(*SOURCES)
    Answer(title, data, rows, _meaning(data, write), cautions, sources).show(as_json)


def _window_rows(data: Data, write: Writer) -> list[Row]:
    found = "found for its superheat" if data["charge_found"] else "as stated"
    least = "not known" if data["least_g"] is None else write.figure("least_g")
    most = "not known" if data["most_g"] is None else write.figure("most_g")
    hot, cool = write.figure("hot_room_C"), write.figure("cool_room_C")
    limit = write.si(STARVED_SUPERHEAT, Kind.temperature_difference)
    starved = f"under {limit} of superheat, start in {hot}"
    if data["least_g"] is None:
        starved = f"no charge tried leaves under {limit} of superheat, start in {hot}"
    wet = f"no liquid back, coldest in a room of {cool}"
    if data["most_g"] is None:
        wet = f"liquid comes back with every charge tried, coldest in a room of {cool}"
    return [
        ("charge", write.figure("charge_g"), found),
        ("enough from", ("under " if data["least_is_bound"] else "") + least, starved),
        ("dry up to", ("over " if data["most_is_bound"] else "") + most, wet),
        ("most cooling, hot start", write.figure("best_hot_pull_down_g"), "of the charges tried"),
        ("most cooling, coldest", write.figure("best_coldest_g"), "of the charges tried"),
    ]


def _worth_rows(data: Data, write: Writer) -> list[Row]:
    rows: list[Row] = []
    for key, label, kind, when in WORTH:
        value = data["one_gram"][key]
        sign = "-" if value < 0.0 else "+"
        rows.append((f"one gram more: {label}", f"{sign}{write.si(abs(value), kind)}", when))
    share = data["one_gram"]["run_percent_per_g"]
    if share is not None:
        rows.append(("one gram more: running", f"{share:+.2f} %", "of the time, target held"))
    return rows


def _place_rows(data: Data, write: Writer) -> list[Row]:
    """Each place once, with what it holds in the three states; the least of them together."""
    places: dict[str, list[float]] = {}
    for name in data["places"]["held_g"]:
        masses = [data["places"][state][name] for state in STATES]
        small = max(masses) < LEAST_SHARE * data["charge_g"]
        words = "in all else" if small else f"in the {name.replace('_', ' ')}"
        so_far = places.get(words, [0.0] * len(STATES))
        places[words] = [a + b for a, b in zip(so_far, masses, strict=True)]
    held, *others = STATES.values()
    rows: list[Row] = [("where it is", held, " / ".join(others))]
    for words, masses in sorted(places.items(), key=lambda each: each[0] == "in all else"):
        first, *rest = (write.si(mass / GRAM, Kind.mass) for mass in masses)
        rows.append((f"  {words}", first, " / ".join(rest)))
    return rows


def _so(data: Data, write: Writer) -> str:
    """What to do about it, in one sentence."""
    if data["verdict"] == "within":
        return f"So: leave it at {write.figure('charge_g')}."
    if data["window_open"]:
        span = f"{write.figure('least_g')} to {write.figure('most_g')}"
        return f"So: {span} serves the hottest start and the coldest running alike."
    if data["least_g"] is None:
        return "So: gas alone does not mend it; look at capillary, condenser and coil first."
    if data["most_g"] is None:
        return "So: no charge alone keeps liquid away; change the build first."
    return f"So: not over {write.figure('most_g')}, and patience at the hottest start."


def _meaning(data: Data, write: Writer) -> list[str]:
    words = {
        "within": "The charge lies in the window.",
        "starved": "The charge starves the coil on the hottest start; it pulls down slowly then.",
        "liquid returns": "With this charge liquid comes back at the coldest: take some out, join "
        "more of the capillary, or give the liquid a place to boil.",
    }
    notes = [words[data["verdict"]]]
    if not data["window_open"]:
        notes.append(
            "The window is shut: no charge is both enough for the hottest start and dry at the "
            "coldest. Keep liquid from the compressor first; the start will be slow."
        )
    elif data["width_g"] is not None:
        width = write.si(data["width_g"] / GRAM, Kind.mass)
        notes.append(f"The window is {width} wide: weigh in on a scale that shows a tenth of it.")
    notes.append(_so(data, write))
    notes += sign_notes(data["signs"], write)
    half = write.si(CONTENT_DOUBT * data["charge_g"] / GRAM, Kind.mass)
    notes.append(
        f"What the tubes hold is known to about 15 %, here {half}: the window may lie that much "
        "higher or lower as a whole, while its width and what a gram is worth are surer."
    )
    return notes
