"""The maker's own cabinet as a workshop drawing, to scale, with its temperatures and state."""

from coldwright.sheet.drawing.back import back_drawing
from coldwright.sheet.drawing.colours import (
    paint_properties,
    temperature_declarations,
    temperature_properties,
)
from coldwright.sheet.drawing.describe import describe_drawing
from coldwright.sheet.drawing.front import front_drawing
from coldwright.sheet.drawing.plan import plan_drawing
from coldwright.sheet.drawing.section import section_drawing
from coldwright.sheet.drawing.view import PARTS

# What can be drawn, in the reader's words; "drawing" is the section.
DRAWINGS = {
    "drawing": "the box cut from front to back, to scale",
    "front": "its front, to scale",
    "back": "its back with condenser and compressor, to scale",
    "plan": "the box cut level through its cold side, to scale",
}

__all__ = [
    "DRAWINGS",
    "PARTS",
    "back_drawing",
    "describe_drawing",
    "front_drawing",
    "paint_properties",
    "plan_drawing",
    "section_drawing",
    "temperature_declarations",
    "temperature_properties",
]
