"""Functions over lanes written down once and compiled; see `kernel`."""
