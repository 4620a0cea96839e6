"""A drawing as a file of its own: colours written out, and pictures made of it."""

from __future__ import annotations

import re

_PROPERTY = re.compile(r"var\(--[\w-]+, (#[0-9a-f]{6})\)")


def standalone(svg: str) -> str:
    """The drawing with each colour property replaced by its fallback.

    Programs other than a browser read no properties, and draw what they cannot read in black.
    """
    return _PROPERTY.sub(r"\1", svg)


def as_png(svg: str, scale: float = 2.0) -> bytes:
    """The drawing as a PNG picture, `scale` times its size in pixels."""
    import vl_convert  # noqa: PLC0415 (a large library: only a picture needs it)

    return bytes(vl_convert.svg_to_png(standalone(svg), scale=scale))


def as_pdf(svg: str) -> bytes:
    """The drawing as a PDF page of its own size."""
    import vl_convert  # noqa: PLC0415 (as above)

    return bytes(vl_convert.svg_to_pdf(standalone(svg)))
