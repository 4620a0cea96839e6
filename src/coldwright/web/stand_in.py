"""A plain section of the cabinet to scale, until the drawing proper takes its place."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from html import escape
from typing import Any

from coldwright.build import Build
from coldwright.units import Kind, System, format_quantity
from coldwright.verdict.figures import CELSIUS

STYLE = """.section rect { fill: var(--paper); stroke: var(--ink); stroke-width: 1.5; }
.section .wall { fill: var(--faint); }
.section .cold, .section .warm { stroke: var(--copper); stroke-width: 2; }
.section text { fill: var(--ink); font-size: 22px; font-weight: 600; }
"""
WIDTH, HEIGHT, MARGIN = 420.0, 560.0, 46.0


def section_drawing(
    build: Build, figures: Mapping[str, Any] | None, *, units: System, link: Callable[[str], str]
) -> str:
    """The cabinet's walls, inside, cold side and condenser, with what is known of the air."""
    cabinet = build.cabinet
    wall = sum(layer.thickness.value for layer in cabinet.layers)
    depth, height = cabinet.inside_depth.value, cabinet.inside_height.value
    room = 1.35 * (depth + 2.0 * wall)
    scale = min((WIDTH - 2 * MARGIN) / room, (HEIGHT - 2 * MARGIN) / (height + 2.0 * wall))
    w, d, h = wall * scale, depth * scale, height * scale
    x, y = MARGIN, MARGIN
    air = "" if figures is None else _air(figures, units)
    parts = (
        (
            "walls",
            f'<rect class="wall" x="{x}" y="{y}" width="{d + 2 * w}" height="{h + 2 * w}"/>',
            "walls",
        ),
        (
            "air_path",
            f'<rect class="inside" x="{x + w}" y="{y + w}" width="{d}" height="{h}"/>',
            "inside",
        ),
        (
            "cold_side",
            f'<rect class="cold" x="{x + w + 0.62 * d}" y="{y + w + 0.08 * h}" '
            f'width="{0.25 * d}" height="{0.3 * h}"/>',
            "cold side",
        ),
        (
            "condenser",
            f'<rect class="warm" x="{x + d + 2 * w + 14}" y="{y + 0.1 * h}" width="8" '
            f'height="{0.7 * h}"/>',
            "condenser",
        ),
        (
            "compressor",
            f'<rect class="warm" x="{x + d + 2 * w + 8}" y="{y + 0.86 * h}" width="42" '
            'height="44" rx="14"/>',
            "compressor",
        ),
    )
    drawn = "".join(
        f'<a href="{escape(link(part))}" aria-label="{name}">{shape}</a>'
        for part, shape, name in parts
    )
    label = f'<text x="{x + w + 8}" y="{y + w + 0.7 * h}">{escape(air)}</text>'
    return (
        f'<svg class="section" viewBox="0 0 {WIDTH:.0f} {HEIGHT:.0f}" role="group" '
        f'aria-label="Section of the cabinet to scale">{drawn}{label}</svg>'
    )


def _air(figures: Mapping[str, Any], units: System) -> str:
    air = figures["cabinet"]["air_C"]
    return "" if air is None else format_quantity(air + CELSIUS, Kind.temperature, units)
