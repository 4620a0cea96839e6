"""Where the figures of a vessel come from."""

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
