"""Holds, marginal or fails: by how much, what limits it and what would help most."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Literal

import numpy as np

from coldwright.plant.balance import BALANCED, REASONS
from coldwright.verdict.alternatives import CHANGES
from coldwright.verdict.case import Case, Finding
from coldwright.verdict.figures import CELSIUS, at_lane, percent

Verdict = Literal["holds", "marginal", "fails"]
TITLES = {"holds": "HOLDS", "marginal": "MARGINAL", "fails": "DOES NOT HOLD"}


@dataclass(frozen=True)
class Help:
    """One change and what it would do."""

    key: str
    words: str
    run_fraction: float
    running_air_C: float
    balanced: bool


@dataclass(frozen=True)
class Judgement:
    """The verdict in a word, what limits, and the sentences that say so."""

    verdict: Verdict
    limit: str
    sentences: tuple[str, ...]
    helps: tuple[Help, ...]  # the most helpful first


def judge(case: Case, found: tuple[Finding, ...] = ()) -> Judgement:
    """Judge a worked-out case against its targets.

    Fails: entries that contradict one another are among the findings `found`, without a stop the
    target is not reached, or there is no balance. Marginal: the target is reached but the running
    share, with its interval, is not surely within the allowed one, or the hottest day is too much.
    Holds: otherwise.
    """
    helps = _helps(case)
    contradiction = next((each.notice for each in found if each.contradicts), None)
    if contradiction is not None:
        told = f"{TITLES['fails']} as entered: {_lower(contradiction.text)}"
        return Judgement("fails", contradiction.code, (told,), helps)
    reason = _no_balance(case)
    if reason:
        told = f"{TITLES['fails']}: there is no working state; {reason}."
        return Judgement("fails", reason, (told,), helps)
    judgement = _judge_balanced(case, helps)
    dangers = sum(each.notice.severity == "danger" for each in found)
    if dangers and judgement.verdict != "fails":
        told = "But it must not be built like this: see the notices marked !! below."
        return replace(judgement, sentences=(*judgement.sentences, told))
    return judgement


def _lower(sentence: str) -> str:
    """A sentence as it goes on after a colon."""
    return sentence[:1].lower() + sentence[1:]


def _judge_balanced(case: Case, helps: tuple[Help, ...]) -> Judgement:
    allowed = case.build.targets.highest_run_fraction.value
    share, width = case.run_fraction, case.run_fraction_half_width
    hot = case.hot_run_fraction
    first_help = _first_help(case, helps[0])
    if share > 1.0:
        limit = helps[0].key
        return Judgement("fails", limit, (_short_by(case), first_help), helps)
    sentences = [_holding(case), _hottest(case)]
    verdict: Verdict = "holds" if share + width <= allowed and hot <= 1.0 else "marginal"
    limit = "none" if verdict == "holds" else helps[0].key
    if verdict == "marginal":
        sentences.append(_why_marginal(share, width, allowed, hot))
    sentences.append(first_help)
    sentences[0] = f"{TITLES[verdict]}: {sentences[0]}"
    return Judgement(verdict, limit, tuple(sentences), helps)


def _no_balance(case: Case) -> str:
    """Reason why there is no working state at all, empty when there is one."""
    o = case.operation
    held = int(at_lane(o.cycling.balance.reason, 0))
    running = int(at_lane(o.running.balance.reason, 0))
    if running != BALANCED:
        return REASONS[running]
    return REASONS[held] if held != BALANCED else ""


def _helps(case: Case) -> tuple[Help, ...]:
    o = case.operation
    found = []
    for index, change in enumerate(CHANGES, start=1):
        held = int(at_lane(o.cycling.balance.reason, index)) == BALANCED
        runs = int(at_lane(o.running.balance.reason, index)) == BALANCED
        air = at_lane(o.running.box.air_temperature, index) - CELSIUS
        found.append(
            Help(
                key=change.key,
                words=change.words,
                run_fraction=at_lane(o.cycling.run_fraction, index) if held else np.inf,
                running_air_C=air if runs else np.inf,
                balanced=held and runs,
            )
        )
    share = case.run_fraction

    def merit(each: Help) -> float:
        if not each.balanced:
            return np.inf
        return each.running_air_C if share > 1.0 else each.run_fraction

    return tuple(sorted(found, key=merit))


def _first_help(case: Case, each: Help) -> str:
    now, then = case.run_fraction, each.run_fraction
    if now > 1.0:
        now = at_lane(case.operation.running.box.air_temperature, 0) - CELSIUS
        then = each.running_air_C
    if not each.balanced or then >= now:
        return "None of the changes tried would help."
    return f"What would help most: {each.words}; {_effect(case, each)}."


def _effect(case: Case, each: Help) -> str:
    if case.run_fraction > 1.0:
        now = at_lane(case.operation.running.box.air_temperature, 0) - CELSIUS
        return f"coldest air {case.temperature(now)} -> {case.temperature(each.running_air_C)}"
    after = "all" if each.run_fraction > 1.0 else percent(each.run_fraction)
    return f"running {percent(case.run_fraction)} -> {after} of the time"


def _short_by(case: Case) -> str:
    air = at_lane(case.operation.running.box.air_temperature, 0)
    target = case.build.targets.air_temperature.value
    gap = case.written(air - target, "temperature_difference")
    width = case.written(case.running_air_half_width, "temperature_difference")
    return (
        f"{TITLES['fails']}: running without a stop in a room of "
        f"{case.written(at_lane(case.translation.room.temperature, 0), 'temperature')} the air "
        f"settles at {case.written(air, 'temperature')}, {gap} above the target "
        f"(95 % interval ± {width})."
    )


def _holding(case: Case) -> str:
    allowed = case.build.targets.highest_run_fraction.value
    room = case.written(at_lane(case.translation.room.temperature, 0), "temperature")
    target = case.written(case.build.targets.air_temperature.value, "temperature")
    return (
        f"in a room of {room} the air is held at {target} with the machine running "
        f"{percent(case.run_fraction)} of the time ({_interval(case)}allowed {percent(allowed)})."
    )


def _interval(case: Case) -> str:
    width = case.run_fraction_half_width
    return f"95 % interval ± {percent(width)}, " if np.isfinite(width) else ""


def _hottest(case: Case) -> str:
    room = case.written(case.hot_room, "temperature")
    hot = case.machine(case.hot_state)
    if not hot.balanced:
        return f"On the hottest day ({room}) there is no working state; {hot.reason}."
    if case.hot_run_fraction > 1.0:
        air = case.written(at_lane(case.hot.running.box.air_temperature, 0), "temperature")
        return f"On the hottest day ({room}) it never stops and the air settles at {air}."
    return f"On the hottest day ({room}) it runs {percent(case.hot_run_fraction)} of the time."


def _why_marginal(share: float, width: float, allowed: float, hot: float) -> str:
    if share > allowed:
        return "Marginal because it runs more than is allowed."
    if hot > 1.0:
        return "Marginal because the hottest day is too much for it."
    if not np.isfinite(width):
        return (
            "Marginal because with one of the changes tried there is no working state: how sure "
            "this is cannot be said."
        )
    return (
        "Marginal because the interval "
        f"({percent(max(share - width, 0.0))} to {percent(share + width)}) passes the allowed "
        "share: better data would settle it."
    )
