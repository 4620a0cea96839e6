"""Where the figures of the cold side in depth come from."""

from __future__ import annotations

from collections.abc import Mapping

from coldwright.verdict.explanation import Explanation

FILMS = ("churchill_chu_1975_plate", "bar_cohen_rohsenow_1984")

COLD_SIDE: Mapping[str, Explanation] = {
    "cold_side.evaporating_to_air_K": Explanation(
        "Mean stored air less evaporating temperature.", ("cabinet.air_C",)
    ),
    "cold_side.steps_K": Explanation(
        "Difference that each step takes: resistance times the heat through it, while running on "
        "the refrigerant's side of the brine (or of a plate's compartment), in the mean beyond it.",
        ("cold_side.evaporating_to_air_K", "cabinet.heat_gain_W"),
        ("gungor_winterton_1987", *FILMS),
    ),
    "cold_side.steps_share": Explanation(
        "Each step's difference over the whole of it.",
        ("cold_side.steps_K", "cold_side.evaporating_to_air_K"),
    ),
    "cold_side.sentence": Explanation(
        "The step with the greatest share, and what makes it smaller.", ("cold_side.steps_share",)
    ),
    "cold_side.coil": Explanation(
        "Boiling: latent heat left in what enters, over conductance of a metre times difference to "
        "the source. Superheating: gas comes up to its source exponentially. Spare: the tube less "
        "both; full of liquid at the evaporating temperature it would hold the mass shown.",
        ("cold_side.steps_K", "charge.fill_g"),
        ("gungor_winterton_1987", "gnielinski_2013_tube"),
    ),
    "cold_side.fins": Explanation(
        "Films of the vessel with its fins and without them at the same temperatures; efficiency "
        "of the fins with their joint; the gap half-way out, beside the one that carries most "
        "heat per width.",
        ("cabinet.cold_surface_C", "cabinet.compartment_air_C"),
        FILMS,
    ),
    "cold_side.finishes": Explanation(
        "The box solved anew with each finish and frost, its brine (or plate) as cold as now.",
        ("cabinet.air_C", "cabinet.cold_surface_C"),
        ("churchill_chu_1975_plate", "shop_design_emissivity"),
    ),
}
