"""Where the figures of a vessel and of a holdover come from."""

from __future__ import annotations

from collections.abc import Mapping

from coldwright.verdict.explanation import Explanation

VESSEL: Mapping[str, Explanation] = {
    "vessel.weight_full_kg": Explanation(
        "Metal of shell, fins and tube, filler and brine; refrigerant, brackets and frost left "
        "out.",
        ("vessel.weight_by_part_kg", "vessel.brine_kg"),
    ),
    "vessel.weight_by_part_kg": Explanation(
        "Volume of each part by its sizes times the density of its material.",
        (),
        ("shop_iso_10456",),
    ),
    "vessel.brine_kg": Explanation(
        "Volume filled in times the brine's density at the filling temperature.",
        ("vessel.brine_L", "vessel.filled_at_C"),
        ("fluids_melinder_2010",),
    ),
    "vessel.brine_L": Explanation(
        "Inside up to the headspace, less filler and the immersed tube, at the filling temperature."
    ),
    "vessel.filled_at_C": Explanation("Temperature at which the level is taken, 20 °C."),
    "vessel.warmest_C": Explanation("Warmest that the filled vessel is taken to stand unused."),
    "vessel.expansion_L": Explanation(
        "Growth of the brine from the filling temperature to the warmest: volume times (density "
        "filled over density warmest, less one).",
        ("vessel.brine_L", "vessel.filled_at_C", "vessel.warmest_C"),
        ("fluids_melinder_2010",),
    ),
    "vessel.headspace_L": Explanation("Free volume above the level as filled."),
}

HOLDOVER: Mapping[str, Explanation] = {
    "holdover.state_of_charge": Explanation(
        "Frozen share of the store at which it is worked out, from the build."
    ),
    "holdover.melting_C": Explanation(
        "Temperature at which ice and melt stand together at the state of charge: one temperature "
        "for water or a eutectic, along the freezing curve for a brine.",
        ("holdover.state_of_charge", "holdover.first_ice_C", "holdover.last_ice_C"),
        ("holdover_lever_rule",),
    ),
    "holdover.first_ice_C": Explanation(
        "Temperature at which the filling begins to freeze.",
        (),
        ("fluids_melinder_2010", "fluids_eutectics"),
    ),
    "holdover.last_ice_C": Explanation(
        "Temperature at which the store counts as full: 0.1 K below the freezing point, or for a "
        "brine 10 K below its first ice (or where its freezing curve ends).",
        ("holdover.first_ice_C",),
    ),
    "holdover.store_kWh": Explanation(
        "Mass of the filling times its latent heat.",
        ("vessel.brine_kg", "holdover.latent_heat_kJ_per_kg"),
    ),
    "holdover.latent_heat_kJ_per_kg": Explanation(
        "Heat of fusion of the filling; of a brine that of the ice that leaves it between first "
        "and last ice, falling with temperature.",
        ("holdover.first_ice_C", "holdover.last_ice_C"),
        ("holdover_lever_rule", "fluids_eutectics", "fluids_ice_fukusako_1990"),
    ),
    "holdover.frozen_layer_m": Explanation(
        "Layer round the tube that holds the frozen share: a cylinder up to half the coil's pitch, "
        "a sheet beyond.",
        ("holdover.state_of_charge", "vessel.brine_L"),
    ),
    "holdover.growth_when_full_L": Explanation(
        "Room that the full store takes beyond what was filled in at 20 °C, from the densities of "
        "ice (or frozen mixture) and melt.",
        ("vessel.brine_L",),
        ("fluids_ice_fukusako_1990", "fluids_eutectics"),
    ),
    "holdover.evaporating_C": Explanation(
        "Evaporating temperature while the filling freezes: the balance with the source at the "
        "melting point, through the frozen layer and, for the heat of the box, the melt's film.",
        ("holdover.melting_C", "holdover.frozen_layer_m"),
        ("london_seban_1943",),
    ),
    "holdover.capacity_W": Explanation(
        "Heat that the machine takes from the filling at that evaporating temperature.",
        ("holdover.evaporating_C",),
    ),
    "holdover.heat_gain_freezing_W": Explanation(
        "Heat that the box lets in meanwhile, its back warmed by the running machine.",
        ("holdover.melting_C", "room_C"),
    ),
    "holdover.hours_to_freeze": Explanation(
        "Store over capacity less heat gain, from all melted at the melting point to full; the "
        "mean of five states of charge, since ice slows the machine as it grows.",
        ("holdover.store_kWh", "holdover.capacity_W", "holdover.heat_gain_freezing_W"),
        ("holdover_enthalpy_method",),
    ),
    "holdover.heat_gain_melting_W": Explanation(
        "Heat that the box lets in with the machine off and the filling at its melting point.",
        ("holdover.melting_C", "room_C"),
    ),
    "holdover.hours_it_holds": Explanation(
        "Full store over that heat, from full to all melted, as mean of five states of charge; "
        "what a filling warms before or after is left out.",
        ("holdover.store_kWh", "holdover.heat_gain_melting_W"),
        ("holdover_enthalpy_method",),
    ),
    "holdover.air_while_melting_C": Explanation(
        "Mean stored air while the filling melts in the design room, machine off.",
        ("holdover.melting_C", "holdover.heat_gain_melting_W"),
    ),
}
