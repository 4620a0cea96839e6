"""A figure as a file: still picture (SVG, PNG), live page (HTML) or plain data (JSON).

All drawing is done by libraries on this machine: no file asks for anything from a network.
"""

from __future__ import annotations

import html
import json
import re
from typing import Any

from coldwright.sheet.figure import Cell, Figure
from coldwright.sheet.theme import INK, PAPER, SOFT

# The library reads the specification of this grammar version; Altair writes the same.
GRAMMAR = "6.4"
PAGE = """<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>{title}</title>
<style>
body {{ margin: 1.2rem; background: {paper}; color: {ink}; font-family: sans-serif; }}
main {{ max-width: 70rem; margin: auto; }}
#chart {{ overflow-x: auto; }}
p {{ line-height: 1.5; max-width: 46rem; }}
table {{ border-collapse: collapse; font-variant-numeric: tabular-nums; }}
th, td {{ padding: 0.2rem 0.7rem; border-bottom: 1px solid {soft}; text-align: right; }}
th {{ font-weight: normal; color: {soft}; }}
th:first-child, td:first-child {{ text-align: left; }}
</style>
</head>
<body>
<main>
<figure>
<div id="chart"></div>
<figcaption><p>{caption}</p></figcaption>
</figure>
<details>
<summary>The figures</summary>
{table}
</details>
</main>
<script>
{script}
</script>
</body>
</html>
"""
# The menu's links would lead to a server; the picture is on this page already.
SNIPPET = """vegaEmbed("#chart", {spec}, {{mode: "vega-lite", actions: false, renderer: "svg"}});"""


def as_svg(figure: Figure) -> str:
    """The figure as an SVG document with live text; its caption is what a screen reader says."""
    import vl_convert  # noqa: PLC0415 (a large library: only a picture needs it)

    svg = vl_convert.vegalite_to_svg(dict(figure.spec), vl_version=GRAMMAR)
    start, rest = svg.split(">", 1)
    words = f"<title>{html.escape(figure.title)}</title><desc>{html.escape(figure.caption)}</desc>"
    return f'{start} role="img">{words}{rest}'


def as_png(figure: Figure, scale: float = 2.0) -> bytes:
    """The figure as a PNG picture, `scale` times its size in points."""
    import vl_convert  # noqa: PLC0415 (as above)

    return vl_convert.vegalite_to_png(dict(figure.spec), vl_version=GRAMMAR, scale=scale)


def as_html(figure: Figure) -> str:
    """The figure as one page that works without a network: picture, caption and table."""
    import vl_convert  # noqa: PLC0415 (as above)

    plain = {key: value for key, value in figure.spec.items() if key != "$schema"}
    snippet = SNIPPET.format(spec=json.dumps(plain, ensure_ascii=False))
    script = vl_convert.javascript_bundle(snippet, vl_version=GRAMMAR)
    # A name that holds `</script>` or `<!--` must not end the page's script; in a string of
    # JavaScript the backslash changes nothing.
    script = re.sub("</(?=script)", r"<\\/", script, flags=re.IGNORECASE)
    script = script.replace("<!--", r"<\!--")
    return PAGE.format(
        title=html.escape(f"{figure.title}: {figure.subtitle}"),
        caption=html.escape(figure.caption),
        table=_table(figure),
        script=script,
        paper=PAPER,
        ink=INK,
        soft=SOFT,
    )


def as_data(figure: Figure) -> dict[str, Any]:
    """The figure as plain data: words, table with units, and the specification with its data."""
    return {
        "chart": figure.key,
        "title": figure.title,
        "subtitle": figure.subtitle,
        "caption": figure.caption,
        "columns": [
            {"key": each.key, "label": each.label, "unit": each.unit} for each in figure.columns
        ],
        "rows": [dict(row) for row in figure.rows],
        "spec": dict(figure.spec),
    }


def as_json(figure: Figure) -> str:
    """`as_data` as text."""
    return json.dumps(as_data(figure), ensure_ascii=False, indent=2) + "\n"


def _table(figure: Figure) -> str:
    head = "".join(f"<th>{html.escape(each.heading)}</th>" for each in figure.columns)
    body = "\n".join(
        "<tr>"
        + "".join(f"<td>{html.escape(_cell(row.get(each.key)))}</td>" for each in figure.columns)
        + "</tr>"
        for row in figure.rows
    )
    return f"<table>\n<thead><tr>{head}</tr></thead>\n<tbody>\n{body}\n</tbody>\n</table>"


def _cell(value: Cell) -> str:
    if value is None:
        return ""
    return value if isinstance(value, str) else f"{value:.4g}"
