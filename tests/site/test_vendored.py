"""Files that come from elsewhere are the ones that the manifests list."""

import hashlib
import json
from typing import Any

import pytest

from scripts.environment import ROOT

KATEX = ROOT / "scripts" / "katex" / "manifest.json"
MINISEARCH = ROOT / "docs" / "assets" / "search" / "manifest.json"
FILES = {
    KATEX: ("scripts/katex/*", "docs/assets/katex/**/*"),
    MINISEARCH: ("docs/assets/search/LICENSE", "docs/assets/search/minisearch.js"),
}


def listed(manifest: Any) -> Any:
    """Return what a manifest lists."""
    return json.loads(manifest.read_text("utf-8"))


@pytest.mark.parametrize("manifest", FILES, ids=lambda path: path.parent.name)
def test_every_file_is_listed_with_its_digest(manifest: Any) -> None:
    """Nothing is changed, missing, or added."""
    found = {
        path.relative_to(ROOT).as_posix(): hashlib.sha256(path.read_bytes()).hexdigest()
        for pattern in FILES[manifest]
        for path in sorted(ROOT.glob(pattern))
        if path.is_file() and path != manifest
    }

    assert found == listed(manifest)["files"]


def test_version_and_licence_are_those_of_the_formulas_script() -> None:
    """The manifest says what the script says of itself."""
    component = listed(KATEX)["components"][0]
    script = (ROOT / "scripts" / "katex" / "katex.min.js").read_text("utf-8")

    assert f'version:"{component["version"]}"' in script
    assert "MIT License" in (ROOT / component["licence_file"]).read_text("utf-8")
