"""Where each way of the cabinet's heat comes from: `cabinet.gain_by_way_W` by its keys."""

from __future__ import annotations

from collections.abc import Mapping

from coldwright.parts.cabinet_faces import FACE_NAMES
from coldwright.verdict.explanation import Explanation

WAY = "cabinet.gain_by_way_W"
_ACROSS = ("cabinet.air_C", "room_C")
_SEEN = {
    "back": "Its outside faces what the file says; a condenser warms the air there by half its own "
    "excess over the room while it runs.",
    "bottom": "Its outside faces what the file says; a compressor's space is warmer by 15 % of the "
    "shell's excess while it runs.",
}


def _face(name: str) -> Explanation:
    text = (
        f"Conductance of face {name} (layers in series, both films, its share of edges and "
        "corners) times the difference of the air on its two sides, and what its skin radiates to "
        f"the cold side. {_SEEN.get(name, '')}"
    )
    return Explanation(text.strip(), (*_ACROSS, "cabinet.liner_C"), ("iso_6946", "holman"))


GAINS: Mapping[str, Explanation] = {
    **{f"{WAY}.face {name}": _face(name) for name in FACE_NAMES},
    f"{WAY}.bridges": Explanation(
        "Sum of length times conductance by the metre of frames, straps and pipes, times the "
        "difference to the room.",
        _ACROSS,
    ),
    f"{WAY}.gasket": Explanation(
        "Length of the seal times its conductance by the metre (as written, or by its kind), times "
        "the difference to the room.",
        _ACROSS,
        ("shop_gaskets",),
    ),
    f"{WAY}.leakage": Explanation(
        "Air that leaves through the gaps below the neutral level by the stack effect, made up by "
        "the room's, times its specific heat and the difference to the room.",
        _ACROSS,
        ("ashrae_fundamentals_ventilation",),
    ),
    f"{WAY}.drain": Explanation(
        "Cold air that runs out of an open drain by the stack effect, made up through the gaps "
        "above; nothing with a trap.",
        _ACROSS,
        ("ashrae_fundamentals_ventilation",),
    ),
    f"{WAY}.doors": Explanation(
        "Air exchanged while the door is open, spread over the day; a lid keeps its air.",
        _ACROSS,
        ("gosney_olama_1975",),
    ),
    f"{WAY}.contents": Explanation(
        "Respiration and other heat of the contents, goods put in warm as a daily mean, less what "
        "their evaporation takes.",
        ("cabinet.air_C", "cabinet.relative_humidity"),
    ),
    f"{WAY}.latent": Explanation(
        "Moisture of gaps, drain, door and contents that settles on the cold side, times the heat "
        "of its settling (as ice below 0 °C).",
        ("cabinet.frost_g_per_day", "cabinet.cold_surface_C"),
        ("chilton_colburn_1934", "box_ashrae_psychrometrics"),
    ),
}
