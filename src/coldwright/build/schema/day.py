"""The usual day, for the clock; a file need not have one."""

from __future__ import annotations

from typing import Annotated, Literal

from coldwright.build.schema.fields import Measure, Section, Text, local
from coldwright.units import Quantity

DAY = 86400.0


def _hour(example: str, meaning: str) -> Measure:
    return local("time", 0.0, DAY, example, meaning)


class DayPlan(Section):
    """When the door is opened and goods are put in, how the room goes, a power cut, a price."""

    room: Annotated[
        Literal["steady", "swinging"] | None,
        Text("swinging", "steady, or swinging daily between the site's low and high."),
    ] = None
    first_opening: Annotated[
        Quantity | None, _hour("7 h", "hour of the day from which the door is opened")
    ] = None
    last_opening: Annotated[
        Quantity | None, _hour("21 h", "hour of the day until which the door is opened")
    ] = None
    warm_load_at: Annotated[
        Quantity | None, _hour("10 h", "hour of the day at which warm goods are put in")
    ] = None
    power_cut_at: Annotated[
        Quantity | None, _hour("2 h", "hour of the day at which the mains fail, every day")
    ] = None
    power_cut_length: Annotated[
        Quantity | None, _hour("3 h", "how long the mains fail, every day")
    ] = None
    price: Annotated[
        Quantity | None,
        local("number", 0.0, 1e6, "0.30", "price of a kilowatt-hour, in any currency"),
    ] = None
    battery: Annotated[
        Quantity | None,
        local(
            "number",
            0.0,
            1e5,
            "60",
            "ampere-hours that may be drawn from the battery of a battery machine",
            above=True,
        ),
    ] = None
