"""Content security policy: what a page may load, said in the page itself.

Pages must work from a server and from a folder on disk.  On disk `'self'` matches nothing, so each
list has `file:` beside it; on a server a page cannot load `file:` anyway.
"""

import base64
import hashlib
import re

_CHARSET = '<meta charset="utf-8">'
_INLINE = re.compile(r"<script(?![^>]*\b(?:src|type)=)[^>]*>(.*?)</script>", re.DOTALL)


def with_policy(page: str) -> str:
    """Return the page with its policy, as the first thing after the character set.

    Raises:
        ValueError: If there is no place for it.
    """
    if page.count(_CHARSET) != 1:
        raise ValueError(f"a page must have {_CHARSET} once")
    meta = f'<meta http-equiv="Content-Security-Policy" content="{policy(page)}">'
    return page.replace(_CHARSET, f"{_CHARSET}\n      {meta}")


def policy(page: str) -> str:
    """Return the policy of a page: its own files, and its own inline scripts by their hashes."""
    hashes = sorted({_hash(script) for script in _INLINE.findall(page)})
    scripts = " ".join(f"'sha256-{value}'" for value in hashes)
    return "; ".join(
        [
            "default-src 'none'",
            f"script-src 'self' file: 'wasm-unsafe-eval' {scripts}",
            "worker-src 'self' file: blob:",
            "style-src 'self' file: 'unsafe-inline'",
            "img-src 'self' file: data:",
            "font-src 'self' file:",
            "connect-src 'self'",
            "base-uri 'none'",
            "form-action 'none'",
        ]
    )


def _hash(script: str) -> str:
    return base64.b64encode(hashlib.sha256(script.encode()).digest()).decode()
