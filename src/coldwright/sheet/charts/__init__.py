"""Charts of a build's own state, one idea a file."""

# What can be drawn, in the reader's words; each has its own file here.
CHARTS = {
    "pressure-enthalpy": "the cycle on the dome of its refrigerant",
    "tubes": "temperature along the tubes",
    "charge": "from too little charge to too much",
    "watts": "where the heat comes in",
    "resistances": "where the degrees go, cold side and hot side",
}
