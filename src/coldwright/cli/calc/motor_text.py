"""`calc motor` as text."""

from __future__ import annotations

from collections.abc import Iterator

from coldwright.cli.calc.answer import Answer, Data, Row, Writer, cited, noticed
from coldwright.errors import Notice
from coldwright.units import Kind, System

RUNNING_DROP, START_DROP, FUSE_MARGIN = 3.0, 15.0, 1.25
FLAT = 1.1  # below this multiple of the magnetising current, amperes say little of the watts
CODES = "Local electrical codes and a licensed electrician decide on lead and fuse."


def show(data: Data, direct: bool, system: System, remarks: list[str], as_json: bool) -> None:
    """Print the answer."""
    write = Writer(data, system)
    notices = [noticed(each) for each in _notices(data, direct)]
    data = {**data, "notices": notices}
    title = f"Motor at {write.si(data['voltage_V'], Kind.voltage)}"
    sources = ["motor_phasor", "motor_practice"]
    if data["lead_ohm"] is not None:
        sources += ["copper_resistivity", "astm_b258"]
    answer = Answer(
        title,
        data,
        _rows(data, direct, write),
        [*remarks, *_meaning(data, direct)],
        () if as_json else notices,
        cited(*sources),
    )
    answer.show(as_json)


def _rows(data: Data, direct: bool, write: Writer) -> list[Row]:
    halves = data.get("half_widths", {})

    def figure(key: str, kind: Kind) -> str:
        return write.quantity(data[key], halves.get(key, 0.0), kind)

    rows: list[Row] = [
        ("power", figure("power_W", Kind.power), ""),
        ("current", figure("current_A", Kind.current), ""),
    ]
    if not direct:
        rows += [
            ("magnetising current", figure("magnetising_current_A", Kind.current), "at any load"),
            ("power factor", f"{data['power_factor']:.2f}", ""),
        ]
    if data["lead_drop_V"] is not None:
        drop = f"{data['lead_drop_percent']:.1f} %"
        loss = write.si(data["lead_loss_W"], Kind.power)
        rows.append(("drop in the lead", drop, f"{data['lead_drop_V']:.2f} V, {loss} lost"))
    if data["start_drop_percent"] is not None:
        rows.append(
            ("drop at the start", f"{data['start_drop_percent']:.0f} %", "with the rotor locked")
        )
    if data["energy_kWh_per_day"] is not None:
        rows.append(("energy", f"{data['energy_kWh_per_day']:.2f} kWh", "a day, lead included"))
    if data["battery_Ah_per_day"] is not None:
        rows.append(("from the battery", f"{data['battery_Ah_per_day']:.0f} Ah", "a day"))
    return rows


def _meaning(data: Data, direct: bool) -> Iterator[str]:
    if not direct:
        yield (
            "The magnetising current hardly depends on load, so one reading fixes it for this "
            "voltage; a start winding or run capacitor changed afterwards makes it another."
        )
    if data["lead_ohm"] is not None:
        yield CODES


def _notices(data: Data, direct: bool) -> Iterator[Notice]:
    idle, amps = data["magnetising_current_A"], data["current_A"]
    if not direct and amps < idle:
        text = (
            f"The amperes are below the magnetising current alone ({idle:.2f} A): the machine "
            "stands, or voltage or reading were others."
        )
        yield Notice("below_magnetising", "warning", text, "motor_phasor")
    elif not direct and amps < FLAT * idle:
        text = "Near the magnetising current the amperes hardly tell the watts: use a wattmeter."
        yield Notice("flat_current", "info", text, "motor_phasor")
    drop, start = data["lead_drop_percent"], data["start_drop_percent"]
    if drop is not None and drop > RUNNING_DROP:
        text = f"{drop:.1f} % of the voltage is lost in the lead; {RUNNING_DROP:.0f} % is usual."
        yield Notice("lead_drop", "warning", text, "motor_practice")
    if start is not None and start > START_DROP:
        text = f"At the start {start:.0f} % of the voltage is lost: the motor may not start."
        yield Notice("lead_start_drop", "warning", text, "motor_practice")
    fuse = data["fuse_A"]
    if fuse is not None and fuse < FUSE_MARGIN * amps:
        text = f"The fuse is rated {fuse:g} A for {amps:.2f} A running: it will not last. {CODES}"
        yield Notice("fuse_rating", "warning", text, "motor_practice")
