"""What the model takes for granted beside the build: each with its width and where it is from."""

from __future__ import annotations

from coldwright.build.result import Assumed
from coldwright.build.translation import condenser, plant
from coldwright.fluids import filling
from coldwright.parts import compressor_typical as machine
from coldwright.parts.air_circuit import HEATING_CENTRE
from coldwright.parts.hot_side.place import BACK_WARMTH
from coldwright.plant.box import BACK_SHARE, COMPRESSOR_SPACE_SHARE
from coldwright.units import Kind
from coldwright.verdict.case import Case

PRACTICE = "common practice, no source"
NONE = "assumed, no source"


def _share(field: str, text: str, value: float, spread: float, source: str) -> Assumed:
    return Assumed(f"model.{field}", text, value, Kind.ratio, spread, source)


MODEL_ASSUMPTIONS: tuple[Assumed, ...] = (
    _share(
        "suction_heating",
        "suction gas comes 45 % of the way to the shell's temperature at the rating",
        machine.SUCTION_HEATING,
        0.15,
        "from memory",
    ),
    _share(
        "discharge_cooling",
        "discharge gas comes 50 % of the way to the shell's temperature before it leaves",
        machine.DISCHARGE_COOLING,
        0.12,
        "from memory",
    ),
    _share(
        "constant_loss",
        "20 % of the rated power is drawn at no gas work (before the fit)",
        machine.CONSTANT_LOSS_SHARE,
        machine.CONSTANT_LOSS_SHARE * machine.FREE_SPREAD["constant_loss"],
        "from memory",
    ),
    _share(
        "load_loss",
        "8 % of the rated power is a loss that grows as the square of the load (before the fit)",
        machine.LOAD_LOSS_SHARE,
        machine.LOAD_LOSS_SHARE * machine.FREE_SPREAD["load_loss"],
        "from memory",
    ),
    _share("slip", "the motor slips 3.5 %", machine.SLIP, 0.01, PRACTICE),
    _share(
        "back_wall",
        "the cabinet's back sees half of the condenser's excess while it runs",
        BACK_SHARE,
        0.15,
        NONE,
    ),
    _share(
        "condenser_back",
        "cabinet's back and a wall on the room's side stand half-way between condenser and room "
        "for radiation",
        BACK_WARMTH,
        0.15,
        NONE,
    ),
    Assumed(
        "model.condenser_openings",
        "1.5 velocity heads at entrance, bend and exit of the gap behind a sheet",
        condenser.CHANNEL_OPENING_LOSS,
        Kind.number,
        0.4,
        PRACTICE,
    ),
    _share(
        "compressor_space",
        "the air under the floor has 15 % of the shell's excess while it runs",
        COMPRESSOR_SPACE_SHARE,
        0.08,
        NONE,
    ),
    _share(
        "heating_centre",
        "heat enters the stored air as if at a quarter of its height",
        HEATING_CENTRE,
        0.1,
        NONE,
    ),
    Assumed(
        "model.suction_line_film",
        "10 W/(m2 K) on the outside of the suction line",
        plant.LINE_FILM,
        Kind.film_coefficient,
        3.0,
        PRACTICE,
    ),
    Assumed(
        "model.void_fraction",
        "refrigerant in two-phase tubes by Smith's void fraction; models differ, so the charge is "
        "good to about 15 %",
        None,
        None,
        None,
        "Rice 1987, ASHRAE Transactions 93(1) [read]",
    ),
    Assumed(
        "model.pressure_drop",
        "pressure drop in evaporator, condenser and suction line is reported, but not fed back "
        "into the balance",
        None,
        None,
        None,
        NONE,
    ),
    Assumed(
        "model.cycling_loss",
        "no loss at each start (published: 3 to 5 % of efficiency)",
        None,
        None,
        None,
        "Krause and Bullard 1994, ACRC TR-58 [read]",
    ),
)

STORE_OF_BRINE = Assumed(
    "model.store_of_brine",
    "the store of a brine is counted down to 10 K below its first ice",
    filling.COUNTED_SPAN,
    Kind.temperature_difference,
    0.25 * filling.COUNTED_SPAN,
    NONE,
)
FROZEN_LAYER = Assumed(
    "model.frozen_layer",
    "ice lies evenly along the coil, and none in a filling 1 K warmer than its first ice",
    None,
    None,
    None,
    NONE,
)


def model_assumptions(case: Case) -> tuple[Assumed, ...]:
    """What the model takes for granted about the parts of this case."""
    held = case.melting
    if held is None:
        return MODEL_ASSUMPTIONS
    brine = (STORE_OF_BRINE,) if held.store.filling.freezes_over_a_range else ()
    return (*MODEL_ASSUMPTIONS, FROZEN_LAYER, *brine)
