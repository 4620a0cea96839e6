"""The condenser's outside: three kinds, from the tube's wall to the room."""

from coldwright.parts.hot_side.bare_tube import BareCondenser
from coldwright.parts.hot_side.condenser import Condenser, Outside
from coldwright.parts.hot_side.sheet import SheetCondenser
from coldwright.parts.hot_side.wires import WireCondenser

__all__ = ["BareCondenser", "Condenser", "Outside", "SheetCondenser", "WireCondenser"]
