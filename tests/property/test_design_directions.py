"""With the fill found anew, more fins never warm the cabinet, more insulation never adds running.

Over random valid builds: each example writes build files with random sizes, reads them as a user
does and works a few of them out as lanes, each beside itself with one thing changed.
"""

from dataclasses import replace

import numpy as np
from hypothesis import Phase, given, settings
from hypothesis import strategies as st

from coldwright.build import loads, rewrite
from coldwright.build.translation.plant import translate
from coldwright.parts.lane_tools import stack_lanes
from coldwright.plant.balance import BALANCED
from coldwright.plant.box import Room
from coldwright.plant.operation import operate
from support.builds import build_text

# Each example is several seconds of balances: few of them, and no search for a smaller one.
SOME = settings(max_examples=2, phases=[Phase.explicit, Phase.generate])
CLOSED = 1e-6
# A run fraction or temperature may fail to fall by this much: the searches' own agreement.
ROUNDING = 1e-5


def text(low: float, high: float, unit: str) -> st.SearchStrategy[str]:
    return st.floats(low, high).map(lambda value: f"{value:.4g} {unit}".strip())


DRUM = st.fixed_dictionaries(
    {
        "site.room_temperature": text(16.0, 25.0, "°C"),
        "targets.air_temperature": text(1.0, 6.0, "°C"),
        "cabinet.inside_width": text(0.5, 0.7, "m"),
        "cabinet.inside_height": text(0.9, 1.2, "m"),
        "cabinet.layers[2].thickness": text(50.0, 90.0, "mm"),
        "cold_side.brine.fraction": text(45.0, 50.0, "%"),
        "cold_side.tube.length": text(9.0, 13.0, "m"),
        "condenser.tube.length": text(9.0, 13.0, "m"),
        "capillary.bore": text(0.65, 0.75, "mm"),
        "capillary.length": text(2.4, 3.4, "m"),
    }
)
FINS = st.fixed_dictionaries(
    {
        "count": st.integers(8, 24),
        "height": st.floats(0.015, 0.04),
        "thickness": st.floats(8e-4, 2e-3),
    }
)
FINS_TEXT = '\n[cold_side.fins]\ncount = 12\nheight = "20 mm"\n\n'
PLATE = st.fixed_dictionaries(
    {
        "site.room_temperature": text(16.0, 26.0, "°C"),
        "targets.air_temperature": text(9.0, 14.0, "°C"),
        "cold_side.tube.length": text(6.0, 9.0, "m"),
        "capillary.bore": text(0.62, 0.72, "mm"),
        "refrigerant.fill": st.just("find"),
    }
)


def worked_out(plants, rooms, targets, superheats):
    """All lanes at once, with their charges found."""
    room = Room(*(np.array([float(getattr(r, name)) for r in rooms]) for name in vars(rooms[0])))
    return operate(stack_lanes(plants), room, np.array(targets), None, np.array(superheats))


def with_fins(found, count, height, thickness):
    """The plant with fins of this height [m], which the build's drum can take."""
    cold = found.plant.box.cold_side
    fins = replace(
        cold.fins,
        count=np.asarray(float(count)),
        projection=np.asarray(height),
        thickness=np.asarray(thickness),
    )
    finned = replace(cold, fins=fins)
    return replace(
        found.plant,
        box=replace(found.plant.box, cold_side=finned),
        system=replace(found.plant.system, cold_side=finned),
    )


def check_closed(found):
    """Every balance that was found closes in mass and energy."""
    for point in (found.cycling.balance, found.running.balance, found.pull_down):
        balanced = point.reason == BALANCED
        assert np.all(point.residual[balanced] < CLOSED)
        e = point.evaluation
        gained = e.compressor.mass_flow * e.returning.line_heat
        into = e.evaporator.heat + e.compressor.power + gained
        out = e.condenser.heat + e.compressor.shell_loss
        assert np.allclose(into[balanced], out[balanced], rtol=CLOSED)
        total = e.inventory.total / point.charge
        assert np.allclose(total[balanced], 1.0, rtol=CLOSED)


@SOME
@given(st.lists(st.tuples(DRUM, FINS), min_size=2, max_size=3))
def test_more_fin_area_never_makes_the_cabinet_warmer(designs):
    plants, rooms, targets, superheats = [], [], [], []
    base = build_text("larder").partition("# --- revisions")[0]
    for changes, fins in designs:
        finned = rewrite(base, changes).replace(
            "\n[cold_side.tube]\n", f"{FINS_TEXT}[cold_side.tube]\n"
        )
        found = translate(loads(finned))
        for height in (fins["height"], 1.3 * fins["height"]):
            plants.append(with_fins(found, fins["count"], height, fins["thickness"]))
            rooms.append(found.room)
            targets.append(float(found.target))
            superheats.append(float(found.superheat))
    found = worked_out(plants, rooms, targets, superheats)
    check_closed(found)
    plain, more = slice(0, None, 2), slice(1, None, 2)
    both = (found.running.balance.reason[plain] == BALANCED) & (
        found.running.balance.reason[more] == BALANCED
    )
    assert np.any(both)
    air = found.running.box.air_temperature
    assert np.all((air[more] - air[plain])[both] <= ROUNDING)
    share = found.cycling.run_fraction
    assert np.all((share[more] - share[plain])[both] <= ROUNDING)


@SOME
@given(st.lists(st.tuples(PLATE, st.floats(0.6, 0.95)), min_size=2, max_size=3))
def test_more_insulation_never_raises_run_fraction(designs):
    plants, rooms, targets, superheats = [], [], [], []
    for changes, factor in designs:
        found = translate(loads(rewrite(build_text("cheese"), changes)))
        box = found.plant.box
        better = replace(
            box, cabinet=replace(box.cabinet, conductance_multiplier=np.asarray(factor))
        )
        for each in (found.plant, replace(found.plant, box=better)):
            plants.append(each)
            rooms.append(found.room)
            targets.append(float(found.target))
            superheats.append(float(found.superheat))
    found = worked_out(plants, rooms, targets, superheats)
    check_closed(found)
    share = found.cycling.run_fraction
    held = found.cycling.balance.reason == BALANCED
    both = held[0::2] & held[1::2]
    assert np.any(both)
    assert np.all((share[1::2] - share[0::2])[both] <= ROUNDING)
