"""Motor, lead, fuse, contact and rest: ratings are taken as they are stated."""

from __future__ import annotations

from collections.abc import Iterator

from coldwright.errors import Notice
from coldwright.shop.compressor_limits import (
    HOT_WINDING,
    LEAST_REST,
    WARM_WINDING,
    WINDING_DOUBT,
)
from coldwright.verdict.case import WORDS, Case, Finding
from coldwright.verdict.electrics import electric_figures, winding_celsius

PRACTICE = "motor_practice"
CODES = "Local electrical codes and a licensed electrician decide."
RUNNING_DROP, START_DROP = 3.0, 15.0  # %
FUSE_MARGIN, CONTACT_MARGIN = 1.25, 1.0
SAME_FREQUENCY = 0.01


def electric_findings(case: Case) -> Iterator[Finding]:
    """Findings about what the motor and its wiring bear."""
    yield from _winding(case)
    yield from _lead(case)
    yield from _ratings(case)
    yield from _rest(case)
    yield from _mains(case)


def _mains(case: Case) -> Iterator[Finding]:
    """Voltage and frequency of the socket against those of the plate."""
    site, section = case.build.site, case.build.compressor
    turns = site.mains_frequency.value / section.frequency.value
    if section.supply == "ac" and abs(turns - 1.0) > SAME_FREQUENCY:
        effect = "more flux, so a hotter motor" if turns < 1.0 else "a higher speed, so more load"
        text = (
            f"The plate is for {case.written(section.frequency.value, 'frequency')} and the mains "
            f"have {case.written(site.mains_frequency.value, 'frequency')}: {effect}. Figures are "
            f"carried to that speed; start gear and overload may not fit. {CODES}"
        )
        yield Finding(Notice("mains_frequency", "warning", text, PRACTICE), "site.mains_frequency")
    apart = abs(site.mains_voltage.value / section.voltage.value - 1.0)
    if section.supply == "ac" and apart > 0.1:
        text = (
            f"The mains have {case.written(site.mains_voltage.value, 'voltage')} and the plate "
            f"says {case.written(section.voltage.value, 'voltage')}: more than 10 % apart the "
            f"motor starts badly or overheats. {CODES}"
        )
        yield Finding(Notice("mains_voltage", "danger", text, PRACTICE), "site.mains_voltage")


def _winding(case: Case) -> Iterator[Finding]:
    for state in dict.fromkeys((case.state, case.hot_state)):
        found = winding_celsius(case, state)
        if found is None or found <= WARM_WINDING:
            continue
        text = (
            f"{WORDS[state]} the winding comes to about {case.temperature(found)} "
            f"(± {case.difference(WINDING_DOUBT)}); {case.temperature(WARM_WINDING)} to "
            f"{case.temperature(HOT_WINDING)} is the most for steady running. More air over the "
            "shell, a lower condensing temperature or a larger machine."
        )
        yield Finding(Notice("winding_hot", "warning", text, "compressor_limits"), "compressor")


def _lead(case: Case) -> Iterator[Finding]:
    figures = electric_figures(case)
    drop, start = figures.lead_drop_percent, figures.start_drop_percent
    if drop is not None and drop > RUNNING_DROP:
        text = (
            f"The lead loses {drop:.1f} % of the voltage while the machine runs; "
            f"{RUNNING_DROP:.0f} % is the usual limit. A thicker or shorter lead. {CODES}"
        )
        yield Finding(Notice("lead_drop", "warning", text, PRACTICE), "compressor.lead")
    if start is not None and start > START_DROP:
        text = (
            f"With the rotor locked the lead loses {start:.0f} % of the voltage: the motor may "
            f"not start. A thicker or shorter lead. {CODES}"
        )
        yield Finding(Notice("lead_start_drop", "warning", text, PRACTICE), "compressor.lead")


def _ratings(case: Case) -> Iterator[Finding]:
    lead = case.build.compressor.lead
    if lead is None:
        return
    states = [case.machine(s) for s in (case.state, "pull_down", case.hot_state)]
    most = max((figures.current_A for figures in states if figures.balanced), default=0.0)
    for name, rated, margin in (
        ("fuse", lead.fuse, FUSE_MARGIN),
        ("contact", lead.contact, CONTACT_MARGIN),
    ):
        if rated is not None and rated.value < margin * most:
            text = (
                f"The {name} is rated {case.written(rated.value, 'current')} and the motor draws "
                f"up to {case.written(most, 'current')} running"
                + (", and several times that at each start" if name == "fuse" else "")
                + f": it will not last. {CODES}"
            )
            notice = Notice(f"{name}_rating", "warning", text, PRACTICE)
            yield Finding(notice, f"compressor.lead.{name}")


def _rest(case: Case) -> Iterator[Finding]:
    rest = case.build.thermostat.minimum_off_time.value
    low = case.build.compressor.starting == "low torque"
    if low and rest < LEAST_REST and case.build.compressor.supply == "ac":
        text = (
            f"The shortest rest is {case.written(rest, 'time')}; a motor of low starting torque "
            "needs equal pressures, so at least "
            f"{case.written(LEAST_REST, 'time')} (7 to 10 min through a narrow capillary)."
        )
        yield Finding(Notice("short_rest", "warning", text, PRACTICE), "thermostat")
