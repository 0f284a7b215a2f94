"""The content security policy of a page."""

import pytest

from scripts.policy import policy, with_policy

PAGE = '<head><meta charset="utf-8"></head><script>one</script><script src="two.js"></script>'

# printf one | openssl dgst -sha256 -binary | base64
HASH_OF_ONE = "dpLDrTVAu4A8Ags67mbNiIcSMjTqDG5xQ8Ct1z/0Me0="


def test_inline_scripts_are_allowed_by_their_hashes() -> None:
    """A script that is not in the page as built does not run."""
    assert f"'sha256-{HASH_OF_ONE}'" in policy(PAGE)
    assert policy(PAGE).count("sha256-") == 1
    assert "sha256-" not in policy(PAGE.replace("<script>", '<script type="application/json">'))


def test_nothing_outside_may_be_loaded() -> None:
    """Each list names the page's own files and no host."""
    rules = dict(rule.split(" ", 1) for rule in policy(PAGE).split("; "))

    assert rules["default-src"] == "'none'"
    allowed = {word for rule in rules.values() for word in rule.split() if "sha256" not in word}
    assert allowed == {
        "'none'", "'self'", "file:", "blob:", "data:", "'unsafe-inline'", "'wasm-unsafe-eval'",
    }  # fmt: skip
    assert "'unsafe-inline'" not in rules["script-src"]


def test_policy_comes_first() -> None:
    """A policy holds for what follows it."""
    assert with_policy(PAGE).startswith('<head><meta charset="utf-8">\n      <meta http-equiv="Co')


def test_page_without_a_place_for_it_is_refused() -> None:
    """No page goes without."""
    with pytest.raises(ValueError, match="must have"):
        with_policy("<head></head>")
