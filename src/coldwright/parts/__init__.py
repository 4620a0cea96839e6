"""The parts of a cold box: frozen dataclasses of arrays, and what the balance asks of them."""
