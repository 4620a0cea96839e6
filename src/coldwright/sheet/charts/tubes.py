"""Temperature along the tubes, section by section, with room and source as lines."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

import altair as alt
import numpy as np

from coldwright.sheet import theme
from coldwright.sheet.charts.cycle import STATES, point_of
from coldwright.sheet.charts.tube_sections import Section, Zone, sections
from coldwright.sheet.figure import Cell, Column, Figure, Undrawn
from coldwright.sheet.reader import Reader
from coldwright.units import Kind, Scale
from coldwright.verdict.case import Case
from coldwright.verdict.figures import at_lane, percent

HEIGHT = 330
WIDTHS = {"condenser": 250, "capillary": 230, "evaporator": 200, "suction line": 150}
# Kelvin beyond the coldest and the warmest place.
BELOW, ABOVE = 9.0, 8.0
# Share of a tube up to which a word to the right of a place has room.
MOST_FOR_WORD = 0.78
# Share of liquid in a gas from which on it is named.
LEAST_LIQUID = 0.005
Row = Mapping[str, Cell]


@dataclass(frozen=True)
class _Frame:
    """The scales that all sections share."""

    reader: Reader
    length: Scale
    degrees: Scale
    coldest: float  # [K]
    warmest: float  # [K]
    levels: Mapping[str, float]  # [K] of room and source, by name

    def row(self, position: float, temperature: float, **more: Cell) -> Row:
        """A place on the chart."""
        return {
            "position": round(self.length.of(position), 4),
            "temperature": round(self.degrees.of(temperature), 3),
            **more,
        }

    def degree(self, temperature: float) -> str:
        """A temperature [K] with its unit."""
        return self.reader.written(temperature, Kind.temperature)

    def metre(self, length: float) -> str:
        """A length [m] in the unit of the axis."""
        return f"{self.length.of(length):.1f} {self.length.label}"

    def x(self, section: Section) -> alt.X:
        """The axis of one section."""
        ends = [0.0, self.length.of(section.length)]
        return alt.X(
            "position:Q",
            title=f"{self.length.label} from its inlet",
            scale=alt.Scale(domain=ends, nice=False),
            axis=alt.Axis(tickCount=4, grid=False),
        )

    def y(self, first: bool) -> alt.Y:
        """The axis of temperature; its labels stand at the first section only."""
        axis = alt.Axis() if first else alt.Axis(labels=False, ticks=False, title=None)
        ends = [self.degrees.of(self.coldest - BELOW), self.degrees.of(self.warmest + ABOVE)]
        return alt.Y(
            "temperature:Q",
            title=f"temperature, {self.degrees.label}",
            scale=alt.Scale(domain=ends, nice=False),
            axis=axis,
        )


def tubes(case: Case) -> Figure | Undrawn:
    """Temperature along the tubes in the state that the box comes to."""
    state = case.state
    if not case.machine(state).balanced:
        return Undrawn(case.machine(state).reason)
    found = sections(case, state)
    frame = _frame(case, state, found)
    title, subtitle = "Temperature along the tubes", f"{frame.reader.box}, {STATES[state]}"
    caption = _caption(found, frame, case.machine(state).evaporator_exit_quality)
    panels = [_panel(each, frame, each is found[0]) for each in found]
    spec = theme.finished(alt.hconcat(*panels, spacing=12), title, subtitle, caption)
    columns = (
        Column("tube", "tube"),
        Column("zone", "zone"),
        Column("position", "from its inlet", frame.length.label),
        Column("temperature", "temperature", frame.degrees.label),
    )
    return Figure("tubes", title, subtitle, caption, columns, tuple(_rows(found, frame)), spec)


def _frame(case: Case, state: str, found: Sequence[Section]) -> _Frame:
    reader = Reader.of_case(case)
    zones = [zone for each in found for zone in each.zones]
    source = at_lane(point_of(case, state).box.source_temperature, 0)
    levels = {
        "room": at_lane(case.translation.room.temperature, 0),
        "brine" if case.is_brine else "compartment air": source,
    }
    temperatures = [t for zone in zones for t in zone.temperatures] + list(levels.values())
    return _Frame(
        reader=reader,
        length=reader.scale(Kind.length, max(each.length for each in found)),
        degrees=reader.scale(Kind.temperature),
        coldest=min(temperatures),
        warmest=max(temperatures),
        levels=levels,
    )


def _rows(found: Sequence[Section], frame: _Frame) -> list[Row]:
    """All that is drawn, zone by zone."""
    rows = []
    for section in found:
        beside = () if section.beside is None else (section.beside,)
        for zone in (*section.zones, *beside):
            rows += [
                frame.row(*place, tube=section.name, zone=zone.name)
                for place in zip(zone.positions, zone.temperatures, strict=True)
            ]
    return rows


def _panel(section: Section, frame: _Frame, first: bool) -> theme.Layers:
    """One tube."""
    x, y = frame.x(section), frame.y(first)
    layers = [*_bands(section, frame, x), *_levels(frame, y)]
    own: theme.Mark = {"color": theme.COPPER, "strokeWidth": 2.8}
    layers += [_line(zone, frame, x, y, own) for zone in section.zones]
    if section.beside is not None:
        dashed: theme.Mark = {"color": theme.SLATE, "strokeWidth": 1.8, "strokeDash": theme.DASH}
        layers.append(_line(section.beside, frame, x, y, dashed))
    layers += _words(section, frame, x, y)
    return alt.layer(*layers).properties(
        width=WIDTHS[section.name], height=HEIGHT, title=theme.panel_title(section.name)
    )


def _line(zone: Zone, frame: _Frame, x: alt.X, y: alt.Y, mark: theme.Mark) -> alt.Chart:
    places = zip(zone.positions, zone.temperatures, strict=True)
    rows = [frame.row(*place, order=n) for n, place in enumerate(places)]
    line: alt.Chart = alt.Chart(theme.values(rows)).mark_line(**mark)
    return line.encode(x=x, y=y, order="order:Q")


def _bands(section: Section, frame: _Frame, x: alt.X) -> list[alt.Chart]:
    """The joined length of exchanger as a band, and where zones meet."""
    layers = []
    joined = section.beside or section.zone("exchanger")
    if joined is not None and joined.length > 0.0:
        ends = [
            round(frame.length.of(each), 4) for each in (joined.positions[0], joined.positions[-1])
        ]
        band = alt.Chart(theme.values([{"from": min(ends), "to": max(ends)}]))
        layers.append(
            band.mark_rect(color=theme.BAND, opacity=0.7).encode(
                x=alt.X("from:Q", scale=x["scale"], axis=x["axis"], title=x["title"]), x2="to:Q"
            )
        )
    borders = [
        frame.row(zone.positions[0], frame.coldest)
        for zone in section.zones[1:]
        if zone.name != "line"
    ]
    if borders:
        rules = alt.Chart(theme.values(borders)).mark_rule(color=theme.SOFT, strokeWidth=0.6)
        layers.append(rules.encode(x=x))
    return layers


def _levels(frame: _Frame, y: alt.Y) -> list[alt.Chart]:
    """Room and source across the section."""
    layers = []
    for name, temperature in frame.levels.items():
        dash = theme.LONG_DASH if name == "room" else theme.DOTS
        rows = [frame.row(0.0, temperature)]
        rule = alt.Chart(theme.values(rows)).mark_rule(
            color=theme.INK, strokeDash=dash, opacity=0.8
        )
        layers.append(rule.encode(y=y))
    return layers


@dataclass(frozen=True)
class _Word:
    """Text at a place of a section."""

    text: str
    position: float  # [m]
    temperature: float  # [K]
    align: str = "center"
    dx: int = 0
    dy: int = -10


def _words(section: Section, frame: _Frame, x: alt.X, y: alt.Y) -> list[alt.Chart]:
    """Names of zones, levels and the flash point, where they stand."""
    words = [*_zone_words(section, frame)]
    if section.name == "condenser":
        words += [
            _Word(f"{name} {frame.degree(level)}", section.length, level, "right", -5, -7)
            for name, level in frame.levels.items()
        ]
    if section.beside is not None:
        words += _beside_words(section, section.beside, frame)
    layers = []
    for word in words:
        rows = [frame.row(word.position, word.temperature, text=word.text)]
        layers += theme.words(rows, x, y, align=word.align, dx=word.dx, dy=word.dy)
    if section.flash is not None:
        temperature = _at(section.zones[0], section.flash)
        rows = [frame.row(section.flash, temperature)]
        dot = alt.Chart(theme.values(rows)).mark_point(**theme.DOT)
        layers.append(dot.encode(x=x, y=y))
    return layers


def _zone_words(section: Section, frame: _Frame) -> Iterator[_Word]:
    """Each zone by name, with the temperature that it keeps, begins or ends with."""
    for zone in section.zones:
        first, last = zone.temperatures[0], zone.temperatures[-1]
        middle = 0.5 * (zone.positions[0] + zone.positions[-1])
        if zone.name == "gas":
            yield _Word(f"gas, from {frame.degree(first)}", 0.0, first, "left", 12, 4)
        elif zone.name == "condensing":
            yield _Word(f"condensing {frame.degree(first)}", middle, first)
        elif zone.name == "wet":
            yield _Word(f"wet {frame.degree(first)}", 0.0, first, "left", 8, 14)
        elif zone.name in ("liquid", "dry"):
            text, dy = f"{zone.name}, to {frame.degree(last)}", 14 if zone.name == "liquid" else -10
            yield _Word(text, zone.positions[-1], last, "right", -4, dy)
        elif zone.name == "line":
            yield _Word(frame.degree(last), zone.positions[-1], last, "right", -4)


def _beside_words(section: Section, gas: Zone, frame: _Frame) -> Iterator[_Word]:
    """The exchanger and what flows through it; where the liquid flashes."""
    top = frame.warmest + ABOVE
    middle = 0.5 * (gas.positions[0] + gas.positions[-1])
    yield _Word("exchanger", middle, top, dy=12)
    yield _Word("return gas", gas.positions[0], gas.temperatures[0], "right", -4, 14)
    if section.flash is not None:
        inside = section.flash < MOST_FOR_WORD * section.length
        side = ("left", 8, -8) if inside else ("right", 4, -12)
        yield _Word("flashes", section.flash, _at(section.zones[0], section.flash), *side)


def _at(zone: Zone, position: float) -> float:
    """Temperature [K] of a zone at a position [m] from its tube's inlet."""
    return float(np.interp(position, zone.positions, zone.temperatures))


def _caption(found: Sequence[Section], frame: _Frame, quality: float) -> str:
    """Where each zone begins and ends, a sentence for each tube.

    `quality` is the gas's share of what leaves the evaporator.
    """
    condenser, capillary, evaporator, line = found
    return " ".join(
        [
            _condenser_sentence(condenser, frame),
            _capillary_sentence(capillary, frame),
            _evaporator_sentence(evaporator, line, frame, quality),
        ]
    )


def _condenser_sentence(section: Section, frame: _Frame) -> str:
    first = section.zones[0]
    text = f"Gas enters the condenser at {frame.degree(first.temperatures[0])}"
    gas, condensing, liquid = (section.zone(each) for each in ("gas", "condensing", "liquid"))
    if gas is not None:
        text += f", cools over {frame.metre(gas.length)}"
    if condensing is None:
        return f"{text} and does not condense at all."
    text += f" and condenses at {frame.degree(condensing.temperatures[0])} "
    text += f"over {frame.metre(condensing.length)}"
    if liquid is None:
        return f"{text}; no length is left to cool the liquid."
    leaving = frame.degree(liquid.temperatures[-1])
    return f"{text}; {frame.metre(liquid.length)} of liquid cool it to {leaving}."


def _capillary_sentence(section: Section, frame: _Frame) -> str:
    whole = frame.metre(section.length)
    entering = "Gas still goes with the liquid into" if section.enters_with_gas else "Liquid enters"
    text = f"{entering} the capillary"
    if section.flash is None:
        return f"{text} and it flashes all along its {whole}."
    flashes = "is condensed on its way and flashes" if section.enters_with_gas else "flashes"
    return f"{text}; it {flashes} {frame.metre(section.flash)} along, of {whole}."


def _evaporator_sentence(section: Section, line: Section, frame: _Frame, quality: float) -> str:
    wet, dry = section.zone("wet"), section.zone("dry")
    if wet is None:
        return "Nothing boils in the evaporator."
    whole = frame.metre(section.length)
    over = f"all of its {whole}" if dry is None else f"{frame.metre(wet.length)} of its {whole}"
    leaving = frame.degree(section.zones[-1].temperatures[-1])
    arriving = frame.degree(line.zones[-1].temperatures[-1])
    name, source = list(frame.levels.items())[1]
    liquid = 1.0 - quality
    gas = f"gas with {percent(liquid)} of liquid" if liquid > LEAST_LIQUID else "gas"
    return (
        f"The evaporator boils at {frame.degree(wet.temperatures[0])} over {over}, in "
        f"{name} of {frame.degree(source)}; {gas} leaves it at {leaving} and comes to the machine "
        f"at {arriving}, in a room of {frame.degree(frame.levels['room'])}."
    )
