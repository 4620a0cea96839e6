"""Where the figures of the hot side and of the lines come from."""

from __future__ import annotations

from collections.abc import Mapping

from coldwright.verdict.explanation import Explanation

OUTSIDE = ("churchill_chu_1975_plate", "bar_cohen_rohsenow_1984", "duffie_beckman")
DROP = ("mueller_steinhagen_heck_1986", "churchill_1977_friction", "smith_1969_void")
FRICTION = (
    "Friction (two-phase where both phases flow) and change of momentum; bends left out, and not "
    "fed back into the balance"
)
_HEAT = "hot_side.heat_W"
_LINE = "lines.line_gas_C"

HOT_SIDE: Mapping[str, Explanation] = {
    "hot_side.condensing_above_room_K": Explanation(
        "Condensing less room temperature: heat over the condenser's conductance, more while part "
        "of the tube holds gas or liquid.",
        (_HEAT, "hot_side.conductance_W_per_K", "hot_side.sink_above_room_K"),
        OUTSIDE,
    ),
    "hot_side.sink_above_room_K": Explanation(
        "What the condenser works to: the room for radiation, the air that comes in for "
        "convection, weighted by their films.",
        ("hot_side.radiation_share",),
    ),
    "hot_side.surface_C": Explanation(
        "Mean of sheet, or of tube and wires, along the condensing length.",
        ("hot_side.sheet_efficiency",),
        OUTSIDE,
    ),
    _HEAT: Explanation(
        "Flow times the enthalpy from discharge gas to what leaves the condenser.",
        (),
        ("bell_2014_coolprop",),
    ),
    "hot_side.convection_W": Explanation(
        "The air's share of the heat, as the films share along the condensing length.",
        (_HEAT, "hot_side.radiation_share"),
    ),
    "hot_side.radiation_W": Explanation(
        "Radiation's share of the heat.", (_HEAT, "hot_side.radiation_share")
    ),
    "hot_side.radiation_share": Explanation(
        "Radiation film over the sum of both films.",
        ("hot_side.convection_film_W_per_m2K", "hot_side.radiation_film_W_per_m2K"),
    ),
    "hot_side.convection_film_W_per_m2K": Explanation(
        "Mean of the outside: plate and channel of a sheet, wire-on-tube correlation, or lying "
        "tubes above one another; less dirt and trim.",
        ("hot_side.surface_C", "room_C"),
        (*OUTSIDE, "tagliafico_tanda_1997", "corcione_2005"),
    ),
    "hot_side.radiation_film_W_per_m2K": Explanation(
        "Mean of the outside: grey exchange with the room, and with the cabinet's back taken "
        "half-way warm; wires and tubes see one another.",
        ("hot_side.surface_C", "room_C"),
        ("calc_grey_enclosure",),
    ),
    "hot_side.conductance_W_per_K": Explanation(
        "Length over the resistance of a metre: inside film, tube, bond, sheet and air in series.",
        ("hot_side.resistance_share",),
        (*OUTSIDE, "dobson_chato_1998"),
    ),
    "hot_side.sheet_efficiency": Explanation(
        "Mean excess of sheet or wires between two runs over that at the run; 1 for a bare tube.",
        (),
        ("duffie_beckman",),
    ),
    "hot_side.resistance_share": Explanation(
        "Share of each step between condensing refrigerant and air, along the condensing length.",
        (),
        (*OUTSIDE, "dobson_chato_1998"),
    ),
    "hot_side.zone_share": Explanation(
        "Share of the tube that cools gas, condenses and holds liquid.",
        (_HEAT,),
        ("gnielinski_2013_tube", "dobson_chato_1998"),
    ),
    "hot_side.pressure_drop_Pa": Explanation(f"{FRICTION}.", (_HEAT,), DROP),
    "hot_side.pressure_drop_K": Explanation(
        "Saturation temperature that the drop is worth.", ("hot_side.pressure_drop_Pa",), DROP[:1]
    ),
    "hot_side.volume_cm3": Explanation("Bore times length of the condenser's tube."),
    "hot_side.tube_kg": Explanation(
        "Section of the wall times length times density.", (), ("shop_iso_10456",)
    ),
    "hot_side.sheet_kg": Explanation(
        "Developed area times thickness, or volume of the wires, times density.",
        (),
        ("shop_iso_10456",),
    ),
    "lines.evaporator_pressure_drop_Pa": Explanation(f"{FRICTION}.", (), DROP),
    "lines.evaporator_pressure_drop_K": Explanation(
        "Saturation temperature that it is worth.",
        ("lines.evaporator_pressure_drop_Pa",),
        DROP[:1],
    ),
    "lines.suction_line_pressure_drop_Pa": Explanation(
        "Friction of the gas along the whole line.", (), ("churchill_1977_friction",)
    ),
    "lines.suction_line_pressure_drop_K": Explanation(
        "Saturation temperature that it is worth.",
        ("lines.suction_line_pressure_drop_Pa",),
        ("churchill_1977_friction",),
    ),
    "lines.suction_velocity_m_per_s": Explanation(
        "Flow over bore and density of the gas at the evaporator's exit.", ()
    ),
    "lines.oil_velocity_m_per_s": Explanation(
        "Least velocity that drags an oil film up an upright line: G = 0.72 [rho_v g d (rho_oil - "
        "rho_v)]^0.5.",
        (),
        ("jacobs_1976_oil",),
    ),
    _LINE: Explanation(
        "Gas where the line leaves the exchanger: evaporator's exit plus the exchanged heat.",
        (),
        ("incropera_heat_exchangers",),
    ),
    "lines.line_skin_C": Explanation(
        "Outside of the line there: gas film, insulation if any and room film in series.",
        (_LINE, "room_C"),
        ("gnielinski_2013_tube",),
    ),
    "lines.dew_point_C": Explanation("Dew point of the room, from the build's humidity.", ()),
    "lines.sweating_length_m": Explanation(
        "Length after the exchanger whose skin is under the dew point: the gas nears the room "
        "exponentially; wet gas sweats all the way.",
        ("lines.line_skin_C", "lines.dew_point_C", "lines.free_length_m"),
    ),
    "lines.free_length_m": Explanation("Suction line less the joined length.", ()),
    "lines.insulation_m": Explanation(
        "Least thickness of tube insulation (0.038 W/mK, 10 W/m2K on it) whose skin stays dry at "
        "the cold end.",
        (_LINE, "lines.dew_point_C"),
    ),
}
