"""The palette is the one of the pages."""

import re

from calc.chart.palette import COLOURS
from scripts.environment import ROOT


def test_style_sheet_has_the_palette_for_light_paper() -> None:
    """Figures that are kept as files have the colours that they had on the page."""
    sheet = (ROOT / "docs/assets/stylesheets/handbook.css").read_text("utf-8")
    light = dict(re.findall(r"--([\w-]+): (#\w+);", sheet.partition("}")[0]))

    assert {name: light[name] for name in COLOURS} == COLOURS
