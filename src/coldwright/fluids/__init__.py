"""Properties of refrigerants, brines, moist air and oils, over arrays."""
