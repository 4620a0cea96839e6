"""The cold side by kind: a brine vessel, a holdover, a cold plate or a bare tube in the air."""
