"""Heat along thin metal: fins, and a sheet that carries tubes."""

from __future__ import annotations

import numpy as np

from coldwright.arrays import Array, FloatOrArray, lanes
from coldwright.sources import correlation


def _mean_over_base(fin_parameter: Array) -> Array:
    """tanh(x)/x, 1 at x = 0: mean excess of an adiabatic-ended fin over that of its base."""
    safe = np.maximum(fin_parameter, 1e-4)
    # below 1e-4 the series 1 - x^2/3 is exact to rounding and avoids 0/0
    return lanes(np.where(fin_parameter < 1e-4, 1.0 - fin_parameter**2 / 3.0, np.tanh(safe) / safe))


def straight_fin_efficiency(
    film_coefficient: FloatOrArray,
    conductivity: FloatOrArray,
    thickness: FloatOrArray,
    height: FloatOrArray,
) -> Array:
    """Efficiency of a straight fin of even thickness, both faces and the tip in the fluid.

    eta = tanh(m Hc)/(m Hc), m = [2 h/(k t)]^(1/2), Hc = H + t/2 (tip counted as extra height)

    film_coefficient h of ONE face, radiation included [W/m2K], >= 0; conductivity k [W/mK];
    thickness t, height H [m] > 0. Use it with the area 2 Hc per metre. Holds for h t/k << 1; the
    corrected tip is within 1 % of the exact one for h t/k < 0.06.
    Source: Harper and Brown (1922); Incropera, Fundamentals, equation 3.89 (from memory).
    """
    parameter = np.sqrt(2.0 * lanes(film_coefficient) / (conductivity * lanes(thickness)))
    return _mean_over_base(lanes(parameter * (lanes(height) + 0.5 * lanes(thickness))))


@correlation(
    quantity="efficiency of an annular fin",
    source="schmidt_1949",
    ranges={},
    bias="within 1.5 % of the Bessel solution while the efficiency is above 0.5 and R below 5",
)
def annular_fin_efficiency(
    film_coefficient: FloatOrArray,
    conductivity: FloatOrArray,
    thickness: FloatOrArray,
    base_diameter: FloatOrArray,
    fin_diameter: FloatOrArray,
) -> Array:
    """Efficiency of a round fin of even thickness on a tube, tip counted as extra radius.

    eta = tanh(m r phi)/(m r phi), phi = (R - 1)(1 + 0.35 ln R), R = (r_fin + t/2)/r

    film_coefficient of one face [W/m2K], >= 0; conductivity [W/mK]; thickness, base_diameter,
    fin_diameter [m], fin_diameter > base_diameter > 0. Use it with the area of both faces out to
    the corrected radius. Range: eta above 0.5, R up to about 5.
    Source: Schmidt (1949) (from memory).
    """
    radius = 0.5 * lanes(base_diameter)
    ratio = 0.5 * (lanes(fin_diameter) + thickness) / radius
    phi = (ratio - 1.0) * (1.0 + 0.35 * np.log(ratio))
    parameter = np.sqrt(2.0 * lanes(film_coefficient) / (conductivity * lanes(thickness)))
    return _mean_over_base(lanes(parameter * radius * phi))


def sheet_between_tubes_efficiency(
    film_coefficient_both_faces: FloatOrArray,
    conductivity: FloatOrArray,
    thickness: FloatOrArray,
    pitch: FloatOrArray,
    tube_diameter: FloatOrArray,
) -> Array:
    """Fin efficiency of the sheet between parallel tubes bonded to it.

    F = tanh(m (W - D)/2) / (m (W - D)/2), m = [U/(k t)]^(1/2)

    film_coefficient_both_faces U: the SUM of the two faces' coefficients [W/m2K], >= 0 (one face
    alone when the other is insulated); conductivity k [W/mK]; thickness t, pitch W, tube_diameter
    D (width of the bonded strip) [m], W >= D. The middle between two runs is a line of
    symmetry, so the half fin ends adiabatic there and needs no tip correction.
    Source: Duffie and Beckman, Solar Engineering of Thermal Processes, section 6.5.
    """
    parameter = np.sqrt(lanes(film_coefficient_both_faces) / (conductivity * lanes(thickness)))
    half_width = 0.5 * np.maximum(lanes(pitch) - tube_diameter, 0.0)
    return _mean_over_base(lanes(parameter * half_width))


def wire_between_tubes_efficiency(
    film_coefficient: FloatOrArray,
    conductivity: FloatOrArray,
    wire_diameter: FloatOrArray,
    pitch: FloatOrArray,
    tube_diameter: FloatOrArray,
) -> Array:
    """Fin efficiency of wires welded across parallel tubes, air all around them.

    F = tanh(m (W - D)/2) / (m (W - D)/2), m = [4 h/(k d)]^(1/2)

    film_coefficient h on the wire, radiation included [W/m2K], >= 0; conductivity k [W/mK];
    wire_diameter d, pitch W of the tubes, tube_diameter D [m], W >= D. Half way between two tubes
    is a line of symmetry, as in `sheet_between_tubes_efficiency`; the weld is taken as perfect.
    Source: pin fin with an adiabatic end (Incropera, Fundamentals, table 3.4).
    """
    parameter = np.sqrt(4.0 * lanes(film_coefficient) / (conductivity * lanes(wire_diameter)))
    half_length = 0.5 * np.maximum(lanes(pitch) - tube_diameter, 0.0)
    return _mean_over_base(lanes(parameter * half_length))


def tube_on_sheet_conductance(
    loss_conductance_per_area: FloatOrArray,
    pitch: FloatOrArray,
    tube_diameter: FloatOrArray,
    sheet_conductivity: FloatOrArray,
    sheet_thickness: FloatOrArray,
    bond_conductance: FloatOrArray,
    *,
    tube_exposed_conductance: FloatOrArray = 0.0,
) -> Array:
    """Conductance per metre of tube [W/mK] from the tube's outer wall to the air around.

    G = 1 / {1/Cb + 1/[U (D + (W - D) F)]} + G_tube

    loss_conductance_per_area U: sum of both faces' coefficients, radiation included [W/m2K] > 0;
    pitch W of the runs and tube_diameter D [m]; sheet_conductivity [W/mK]; sheet_thickness [m];
    bond_conductance Cb per metre of tube [W/mK] > 0, may be infinite (solder along the whole run
    is above 30; clipped or wired tubes fall to 5 and less); tube_exposed_conductance G_tube: film
    coefficient times exposed perimeter of the tube itself [W/mK], which does not pass the bond
    (0 when the tube's back is counted within D). F is `sheet_between_tubes_efficiency`.
    The film inside the tube is left out: it follows in series by 1/(pi d h).
    Example: U 8, W 0.15, D 0.01, copper 0.5 mm (385): F 0.937; perfect bond: G 1.129 W/mK.
    Source: Duffie and Beckman, section 6.5 (collector efficiency factor); bond figures from
    Whillier and Saluja (1965), from memory.
    """
    loss, width = lanes(loss_conductance_per_area), lanes(tube_diameter)
    efficiency = sheet_between_tubes_efficiency(
        loss, sheet_conductivity, sheet_thickness, pitch, width
    )
    sheet = loss * (width + np.maximum(lanes(pitch) - width, 0.0) * efficiency)
    return lanes(1.0 / (1.0 / lanes(bond_conductance) + 1.0 / sheet) + tube_exposed_conductance)
