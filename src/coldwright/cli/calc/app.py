"""The commands of `coldwright calc`, gathered."""

from __future__ import annotations

import typer

from coldwright.cli.calc.altitude import altitude
from coldwright.cli.calc.brine import brine
from coldwright.cli.calc.capillary import capillary
from coldwright.cli.calc.charge_room import charge_room
from coldwright.cli.calc.compressor import compressor
from coldwright.cli.calc.condenser import condenser
from coldwright.cli.calc.dewpoint import dewpoint
from coldwright.cli.calc.fill import fill
from coldwright.cli.calc.map import performance_map
from coldwright.cli.calc.motor import motor
from coldwright.cli.calc.saturation import saturation
from coldwright.cli.calc.standing import standing
from coldwright.cli.calc.surface import surface
from coldwright.cli.calc.wall import wall

calc_app = typer.Typer(
    help="Answer one question at the bench, most of them without a build file.",
    no_args_is_help=True,
    add_completion=False,
)
calc_app.command("saturation")(saturation)
calc_app.command("brine")(brine)
calc_app.command("standing")(standing)
calc_app.command("charge-room")(charge_room)
calc_app.command("condenser")(condenser)
calc_app.command("dewpoint")(dewpoint)
calc_app.command("surface")(surface)
calc_app.command("wall")(wall)
calc_app.command("capillary")(capillary)
calc_app.command("fill")(fill)
calc_app.command("map")(performance_map)
calc_app.command("compressor")(compressor)
calc_app.command("motor")(motor)
# A height below the sea ("-100 m") starts like an option.
calc_app.command("altitude", context_settings={"ignore_unknown_options": True})(altitude)
