"""The clock: the whole plant in time, minute by minute, over pull-down, a day or a week."""
