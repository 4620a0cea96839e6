"""Charts of a build's own state and of its days, one idea a file."""

# What can be drawn, in the reader's words; each has its own file here.
CHARTS = {
    "pressure-enthalpy": "the cycle on the dome of its refrigerant",
    "tubes": "temperature along the tubes",
    "charge": "from too little charge to too much",
    "watts": "where the heat comes in",
    "resistances": "where the degrees go, cold side and hot side",
    "day": "a day minute by minute: temperatures, watts, doors, goods",
    "pull-down": "a first start with the range that the build's doubts leave",
    "cycle": "one run and one rest in detail",
}
