"""A published data sheet of one reciprocating hermetic compressor for R600a.

Displacement 13.53 cm3, 60 Hz, suction gas and liquid at 32.2 C; twelve points transcribed from an
open university teaching repository (F. Fortkamp, REF0001, 2022; read).
"""

import numpy as np

DISPLACEMENT = 13.53e-6
TURNS = 60.0
SUCTION_GAS = 305.35

# Evaporating C, condensing C, capacity W, power W, current A, mass flow kg/h.
POINTS = np.array(
    [
        (-35.0, 35.0, 167.0, 129.0, 1.21, 1.79),
        (-25.0, 35.0, 282.0, 160.0, 1.27, 3.03),
        (-20.0, 35.0, 362.0, 177.0, 1.32, 3.89),
        (-10.0, 35.0, 570.0, 217.0, 1.45, 6.16),
        (-30.0, 45.0, 216.0, 153.0, 1.25, 2.32),
        (-25.0, 45.0, 280.0, 174.0, 1.30, 3.01),
        (-15.0, 45.0, 452.0, 220.0, 1.44, 4.87),
        (-10.0, 45.0, 561.0, 246.0, 1.52, 6.06),
        (-35.0, 55.0, 156.0, 134.0, 1.22, 1.67),
        (-30.0, 55.0, 208.0, 158.0, 1.27, 2.24),
        (-20.0, 55.0, 350.0, 211.0, 1.41, 3.77),
        (-15.0, 55.0, 441.0, 239.0, 1.50, 4.76),
    ]
)
EVAPORATING = POINTS[:, 0] + 273.15
CONDENSING = POINTS[:, 1] + 273.15
CAPACITY = POINTS[:, 2]
POWER = POINTS[:, 3]
CURRENT = POINTS[:, 4]
MASS_FLOW = POINTS[:, 5] / 3600.0
# The point nearest to the middle of the sheet: -25/45 C.
MIDDLE = 5
