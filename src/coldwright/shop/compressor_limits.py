"""Limits of small static-cooled hermetic compressors; each with its source."""

from __future__ import annotations

# Condensing [C]: steady, and for a peak (from memory).
WARM_CONDENSING, HOT_CONDENSING = 60.0, 70.0
# Discharge pipe [C]: above it the oil ages (trade press, read). The valve is some 42 K hotter.
WARM_DISCHARGE = 107.0
DISCHARGE_DOUBT = 15.0  # K, half-width of what is computed; assumed
# Shell and winding [C], steady (from memory).
HOT_SHELL = 95.0
WARM_WINDING, HOT_WINDING = 125.0, 130.0
WINDING_DOUBT = 15.0  # K, half-width; assumed
# Discharge over suction pressure, absolute (from memory).
WIDE_RATIO = 20.0
# Rest between runs of a motor that needs equal pressures [s] (maker's service manual, read).
LEAST_REST = 300.0
