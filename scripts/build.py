"""Build the site into a folder, check it, and only then put it in place."""

from __future__ import annotations

import os
import sys
from pathlib import Path

from mkdocs.commands.build import build as mkdocs_build
from mkdocs.config import load_config

from scripts.environment import ROOT


def build(destination: Path) -> None:
    """Write the finished site to a folder, replacing what is there."""
    os.environ["NO_MKDOCS_2_WARNING"] = "1"
    mkdocs_build(load_config(str(ROOT / "mkdocs.yml"), site_dir=str(destination), strict=True))


if __name__ == "__main__":
    build(Path(sys.argv[1]))
