"""Files that come from elsewhere are the ones that the manifest lists."""

import hashlib
import json

from scripts.environment import ROOT

MANIFEST = json.loads((ROOT / "scripts" / "katex" / "manifest.json").read_text("utf-8"))
FOLDERS = ("scripts/katex", "docs/assets/katex")


def test_every_file_is_listed_with_its_digest() -> None:
    """Nothing is changed, missing, or added."""
    found = {
        path.relative_to(ROOT).as_posix(): hashlib.sha256(path.read_bytes()).hexdigest()
        for folder in FOLDERS
        for path in sorted((ROOT / folder).rglob("*"))
        if path.is_file() and path.name != "manifest.json"
    }

    assert found == MANIFEST["files"]


def test_version_and_licence_are_those_of_the_file() -> None:
    """The manifest says what the script says of itself."""
    component = MANIFEST["components"][0]
    script = (ROOT / "scripts" / "katex" / "katex.min.js").read_text("utf-8")

    assert f'version:"{component["version"]}"' in script
    assert "MIT License" in (ROOT / component["licence_file"]).read_text("utf-8")
