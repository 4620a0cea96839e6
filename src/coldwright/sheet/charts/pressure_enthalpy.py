"""Pressure over enthalpy: the build's own cycle on the dome of its refrigerant."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import altair as alt

from coldwright.sheet import theme
from coldwright.sheet.charts import cycle as cycles
from coldwright.sheet.charts.cycle import STATES, Cycle, CyclePoint, cycle
from coldwright.sheet.charts.saturation_dome import EnthalpyScale, dome, isotherm
from coldwright.sheet.figure import Cell, Column, Figure, Undrawn
from coldwright.sheet.reader import Reader
from coldwright.units import Kind, Scale
from coldwright.verdict.case import Case

WIDTH, HEIGHT, LIST_WIDTH, LIST_PLACES = 560, 430, 190, 12.6
# The chart reaches so far beyond the cycle: pressures as factors, enthalpy as shares of its width.
BELOW, ABOVE, BESIDE = 0.62, 3.2, (0.12, 0.10)
# Isotherms of the gas every so many of the reader's degrees.
ISOTHERM_STEP = {"si": 20, "shop": 40}
LABEL_SHARE = 0.05
# Points closer than this share of the width take one place for their numbers.
TOGETHER = 0.045
# Of a letter, and of two numbers at the ends of a way [px].
LETTER_WIDTH, NUMBERS_WIDTH = 6.2, 26.0
# Words for the ways between two points: the side of the line, and how far along they stand in
# enthalpy and in the logarithm of pressure.
WORDS = (
    (cycles.BEGINS_CONDENSING, cycles.LEAVES_CONDENSER, "condensing", "above", (0.5, 0.5)),
    (
        cycles.ENTERS_EVAPORATOR,
        cycles.LEAVES_EVAPORATOR,
        "boiling in the evaporator",
        "below",
        (0.5, 0.5),
    ),
    (cycles.IN_CYLINDER, cycles.DISCHARGE, "compressor", "beside", (0.5, 0.5)),
    # below the exchanger, where the tube's line is upright
    (cycles.LEAVES_CONDENSER, cycles.ENTERS_EVAPORATOR, "capillary", "beside", (1.0, 0.75)),
)
OFFSETS: dict[str, theme.Mark] = {
    "above": {"dy": -11},
    "below": {"dy": 13},
    "beside": {"dx": 9, "align": "left"},
}
Row = Mapping[str, Cell]


@dataclass(frozen=True)
class _Frame:
    """The chart's scales and ends."""

    reader: Reader
    enthalpy: EnthalpyScale
    pressure: Scale
    pressures: tuple[float, float]  # [Pa]
    enthalpies: tuple[float, float]  # [J/kg]

    def row(self, pressure: float, enthalpy: float, **more: Cell) -> Row:
        """A place on the chart."""
        return {
            "pressure": round(self.pressure.of(pressure), 4),
            "enthalpy": round(self.enthalpy.shown(enthalpy), 3),
            **more,
        }

    @property
    def rightmost_isotherm(self) -> float:
        """Enthalpy [J/kg] up to which an isotherm's foot leaves room for its label."""
        left, right = self.enthalpies
        return right - LABEL_SHARE * (right - left)

    @property
    def x(self) -> alt.X:
        """The axis of enthalpy."""
        ends = [self.enthalpy.shown(each) for each in self.enthalpies]
        return alt.X(
            "enthalpy:Q",
            title=f"enthalpy, {self.enthalpy.unit}",
            scale=alt.Scale(domain=ends, nice=False, zero=False),
        )

    @property
    def y(self) -> alt.Y:
        """The logarithmic axis of pressure, marked as the reader's gauge is."""
        marks = self.reader.pressure_marks(*self.pressures)
        labels = json.dumps({f"{place:.4f}": text for place, text in marks.items()})
        unit = "on the gauge" if self.reader.system == "shop" else self.pressure.label
        return alt.Y(
            "pressure:Q",
            title=f"pressure, {unit}",
            scale=alt.Scale(
                type="log", domain=[self.pressure.of(each) for each in self.pressures], nice=False
            ),
            axis=alt.Axis(values=list(marks), labelExpr=f"({labels})[format(datum.value, '.4f')]"),
        )


def pressure_enthalpy(case: Case) -> Figure | Undrawn:
    """The cycle of `case` held and without a stop; `Undrawn` where neither has a balance.

    A target out of reach is not drawn: the machine never comes to that state.
    """
    reached = [state for state in STATES if state == "running" or case.run_fraction <= 1.0]
    found = [each for each in (cycle(case, state) for state in reached) if each is not None]
    if not found:
        return Undrawn(case.machine(case.state).reason)
    main = next((each for each in found if each.state == case.state), found[0])
    frame = _frame(case, found)
    columns = _columns(frame)
    rows = tuple(row for each in found for row in _table(each, frame))
    caption = _caption(case, found, frame)
    title = f"Pressure and enthalpy of {case.build.refrigerant.name} in this machine"
    subtitle = f"{frame.reader.box}; the numbered points are those of {STATES[main.state]}"
    diagram = alt.layer(*_ground(case, frame), *_cycles(found, main, frame)).properties(
        width=WIDTH, height=HEIGHT
    )
    chart = alt.hconcat(diagram, _list(found, main, frame), spacing=22)
    spec = theme.finished(chart, title, subtitle, caption)
    return Figure("pressure-enthalpy", title, subtitle, caption, columns, rows, spec)


def _frame(case: Case, found: Sequence[Cycle]) -> _Frame:
    reader, refrigerant = Reader.of_case(case), case.translation.plant.system.refrigerant
    places = [place for each in found for place in each.way]
    lowest, highest = min(p for p, _ in places), max(p for p, _ in places)
    top = float(refrigerant.saturation_pressure(refrigerant.greatest_temperature))
    pressures = (BELOW * lowest, max(min(ABOVE * highest, top), 1.2 * highest))
    enthalpies = [h for _, h in places]
    enthalpies += [h for p, h in dome(refrigerant, pressures[0], highest)]
    left, right = min(enthalpies), max(enthalpies)
    span = right - left
    return _Frame(
        reader=reader,
        enthalpy=EnthalpyScale.of(refrigerant, reader.system),
        pressure=reader.scale(Kind.absolute_pressure, pressures[1]),
        pressures=pressures,
        enthalpies=(left - BESIDE[0] * span, right + BESIDE[1] * span),
    )


def _ground(case: Case, frame: _Frame) -> list[alt.Chart]:
    """Dome, isotherms of the gas, and what the regions are."""
    refrigerant = case.translation.plant.system.refrigerant
    outline = [
        frame.row(p, h, order=n) for n, (p, h) in enumerate(dome(refrigerant, *frame.pressures))
    ]
    lines, ends = [], []
    for temperature in _isotherms(frame):
        places = isotherm(refrigerant, temperature, *frame.pressures)
        if not places or places[0][1] > frame.rightmost_isotherm:
            continue
        text = f"{frame.reader.scale(Kind.temperature).of(temperature):.0f}°"
        lines += [frame.row(*place, line=text) for place in places]
        ends.append(frame.row(*places[0], text=text))
    x, y = frame.x, frame.y
    thin = alt.Chart(theme.values(lines)).mark_line(color=theme.FAINT, strokeWidth=1, clip=True)
    marks = alt.Chart(theme.values(ends)).mark_text(
        color=theme.SOFT, fontSize=9, dy=-5, dx=3, align="left"
    )
    curve = alt.Chart(theme.values(outline)).mark_line(color=theme.INK, strokeWidth=1.6, clip=True)
    return [
        thin.encode(x=x, y=y, detail="line:N"),
        marks.encode(x=x, y=y, text="text:N"),
        curve.encode(x=x, y=y, order="order:Q"),
    ]


def _isotherms(frame: _Frame) -> list[float]:
    """Round temperatures [K] in the reader's degrees."""
    scale = frame.reader.scale(Kind.temperature)
    step = ISOTHERM_STEP[frame.reader.system]
    return [(shown - scale.offset) / scale.factor for shown in range(-2 * step, 8 * step, step)]


def _cycles(found: Sequence[Cycle], main: Cycle, frame: _Frame) -> list[alt.Chart]:
    """The cycles' lines, the numbers of the main one and the words of its zones."""
    layers = []
    for each in sorted(found, key=lambda one: one is main):
        rows = [frame.row(p, h, order=n) for n, (p, h) in enumerate(each.way)]
        line = alt.Chart(theme.values(rows)).mark_line(**_stroke(each is main))
        layers.append(line.encode(x=frame.x, y=frame.y, order="order:Q"))
    layers.append(_dots(main, frame))
    layers += _texts(_numbers(main, frame) + _zone_words(main, frame), frame)
    return layers


def _dots(main: Cycle, frame: _Frame) -> alt.Chart:
    rows = [frame.row(each.pressure, each.enthalpy) for each in main.points]
    dots: alt.Chart = alt.Chart(theme.values(rows)).mark_point(**theme.DOT)
    return dots.encode(x=frame.x, y=frame.y)


def _texts(rows: Sequence[Row], frame: _Frame) -> list[alt.Chart]:
    """Text above, below and beside the lines, with a rim of paper so that lines do not cut it."""
    layers = []
    for side, offset in OFFSETS.items():
        for weight in ("bold", "normal"):
            chosen = [row for row in rows if (row["side"], row["weight"]) == (side, weight)]
            if not chosen:
                continue
            layers += theme.words(chosen, frame.x, frame.y, fontWeight=weight, **offset)
    return layers


def _numbers(main: Cycle, frame: _Frame) -> list[Row]:
    """Each point's number; those too close together share one place."""
    near = TOGETHER * (frame.enthalpies[1] - frame.enthalpies[0])
    middle = (main.points[0].pressure * main.at(cycles.DISCHARGE).pressure) ** 0.5
    groups: list[tuple[str, list[tuple[int, CyclePoint]]]] = []
    numbered = sorted(enumerate(main.points, start=1), key=lambda each: each[1].enthalpy)
    for side in ("above", "below"):
        for number, point in numbered:
            if (point.pressure > middle) != (side == "above"):
                continue
            last = groups[-1][1] if groups and groups[-1][0] == side else []
            if last and point.enthalpy - last[-1][1].enthalpy < near:
                last.append((number, point))
            else:
                groups.append((side, [(number, point)]))
    rows = []
    for side, group in groups:
        text = ", ".join(str(number) for number, _ in sorted(group, key=lambda each: each[0]))
        enthalpy = sum(point.enthalpy for _, point in group) / len(group)
        pressure = group[0][1].pressure
        rows.append(frame.row(pressure, enthalpy, text=text, side=side, weight="bold"))
    return rows


def _zone_words(main: Cycle, frame: _Frame) -> list[Row]:
    """Words on the long ways."""
    names = {each.name for each in main.points}
    rows = []
    for first, last, words, side, (across, down) in WORDS:
        if {first, last} <= names:
            a, b = main.at(first), main.at(last)
            way = abs(b.enthalpy - a.enthalpy)
            text = words if side == "beside" else _fitting(words, way, frame)
            enthalpy = a.enthalpy + across * (b.enthalpy - a.enthalpy)
            pressure = a.pressure * (b.pressure / a.pressure) ** down
            rows.append(frame.row(pressure, enthalpy, text=text, side=side, weight="normal"))
    return rows


def _fitting(text: str, way: float, frame: _Frame) -> str:
    """`text`, or its first word, or nothing: what fits between the numbers of a way [J/kg]."""
    room = WIDTH * way / (frame.enthalpies[1] - frame.enthalpies[0]) - NUMBERS_WIDTH
    first = text.partition(" ")[0]
    return next((each for each in (text, first) if len(each) * LETTER_WIDTH < room), "")


def _list(found: Sequence[Cycle], main: Cycle, frame: _Frame) -> theme.Layers:
    """The numbered points in words, and whose line is which, beside the diagram."""
    rows = [
        {
            "place": number,
            "name": f"{number}  {point.name}",
            "figure": f"{frame.reader.written(point.temperature, Kind.temperature)}, "
            f"{frame.reader.written(point.pressure, Kind.absolute_pressure)}",
        }
        for number, point in enumerate(main.points, start=1)
    ]
    base = alt.Chart(theme.values(rows)).encode(
        y=alt.Y("place:Q", axis=None, scale=alt.Scale(domain=[0.5, LIST_PLACES], reverse=True))
    )
    names = base.mark_text(align="left", x=0, dy=-7, fontWeight="bold").encode(text="name:N")
    figures = base.mark_text(align="left", x=14, dy=7, color=theme.SOFT).encode(text="figure:N")
    return alt.layer(names, figures, *_keys(found, main)).properties(
        width=LIST_WIDTH, height=HEIGHT, view={"stroke": None}
    )


def _keys(found: Sequence[Cycle], main: Cycle) -> list[alt.Chart]:
    """A piece of each line with its name, under the list."""
    layers = []
    for place, each in enumerate(found):
        y = HEIGHT - 24 * (len(found) - place) + 6
        at = alt.Chart(theme.values([{"name": STATES[each.state]}]))
        line = at.mark_rule(**_stroke(each is main))
        layers.append(line.encode(x=alt.value(0), x2=alt.value(34), y=alt.value(y)))
        name = at.mark_text(align="left")
        layers.append(name.encode(x=alt.value(42), y=alt.value(y), text="name:N"))
    return layers


def _stroke(is_main: bool) -> theme.Mark:
    """How the line of a cycle is drawn: told apart by dash as well as by colour."""
    if is_main:
        return {"color": theme.COPPER, "strokeWidth": 2.6}
    return {"color": theme.SLATE, "strokeWidth": 1.6, "strokeDash": theme.DASH}


def _columns(frame: _Frame) -> tuple[Column, ...]:
    return (
        Column("state", "state"),
        Column("number", "number"),
        Column("point", "point"),
        Column("temperature", "temperature", frame.reader.scale(Kind.temperature).label),
        Column("pressure", "pressure", frame.pressure.label),
        Column("gauge", "on the gauge"),
        Column("enthalpy", "enthalpy", frame.enthalpy.unit),
    )


def _table(each: Cycle, frame: _Frame) -> list[Row]:
    degrees = frame.reader.scale(Kind.temperature)
    return [
        frame.row(
            point.pressure,
            point.enthalpy,
            state=STATES[each.state],
            number=number,
            point=point.name,
            temperature=round(degrees.of(point.temperature), 2),
            gauge=frame.reader.written(
                point.pressure - frame.reader.atmosphere_Pa, Kind.gauge_pressure
            ),
        )
        for number, point in enumerate(each.points, start=1)
    ]


def _caption(case: Case, found: Sequence[Cycle], frame: _Frame) -> str:
    """What the diagram says, state by state."""
    name, write = case.build.refrigerant.name, frame.reader.written
    sentences = []
    for each in found:
        low, high = each.points[0].pressure, each.at(cycles.DISCHARGE).pressure
        machine = case.machine(each.state)
        sentences.append(
            f"{STATES[each.state].capitalize()}, {name} boils at "
            f"{case.temperature(machine.evaporating_C)} ({write(low, Kind.absolute_pressure)}) and "
            f"condenses at {case.temperature(machine.condensing_C)} "
            f"({write(high, Kind.absolute_pressure)}), {high / low:.1f} times the absolute "
            f"pressure; each {frame.enthalpy.mass} takes up "
            f"{frame.enthalpy.heat(each.capacity / each.flow)} in the evaporator and leaves the "
            f"machine at {case.temperature(machine.discharge_gas_C)}."
        )
    for state in STATES:
        if not case.machine(state).balanced:
            reason = case.machine(state).reason
            sentences.append(f"{STATES[state].capitalize()} has no balance: {reason}.")
        elif state == "cycling" and case.run_fraction > 1.0:
            sentences.append("The target is out of reach.")
    return " ".join(sentences)
