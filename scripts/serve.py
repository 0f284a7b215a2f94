"""Build the site and serve it on this machine: python3 scripts/serve.py [--port 8000]."""

from __future__ import annotations

import argparse
import os
import subprocess
import sys
from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path

sys.path[0] = str(Path(__file__).resolve().parents[1])  # the project, not this folder

from scripts.environment import BUILD_LOCK, ROOT, ready

SITE = ROOT / "site"


class Server(ThreadingHTTPServer):
    """A server that never shares its port with another."""

    allow_reuse_address = os.name != "nt"  # Windows would let two programs have one port


class Handler(SimpleHTTPRequestHandler):
    """Gives out files as they are now, with the types that browsers insist on."""

    extensions_map = {  # noqa: RUF012 - the base class declares it so
        **SimpleHTTPRequestHandler.extensions_map,
        ".js": "text/javascript",  # Windows may be set up to say otherwise
        ".css": "text/css",
        ".svg": "image/svg+xml",
    }

    def end_headers(self) -> None:
        """Add the header that makes a browser ask again after a rebuild."""
        self.send_header("Cache-Control", "no-cache")
        super().end_headers()

    def log_message(self, format: str, *args: object) -> None:  # noqa: A002 - the base's name
        """Say nothing about single requests."""


def server(folder: Path, port: int) -> Server:
    """Return a server of a folder on 127.0.0.1; port 0 takes any free one.

    Raises:
        SystemExit: When another program has the port.
    """
    try:
        return Server(("127.0.0.1", port), partial(Handler, directory=str(folder)))
    except OSError as error:
        sys.exit(
            f"Port {port} cannot be used: {error.strerror}\n"
            f"Choose another: python3 scripts/serve.py --port {port + 1}"
        )


def main() -> None:
    """Make the environment, build, serve until interrupted."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--port", type=int, default=8000)
    port = parser.parse_args().port
    with server(SITE, port) as site:
        build = [str(ready(BUILD_LOCK)), "-m", "scripts.build", str(SITE)]
        if subprocess.run(build, cwd=ROOT, check=False).returncode:
            sys.exit("The site was not built (see above).")
        print(f"Serving on http://127.0.0.1:{site.server_port}/ (Ctrl+C stops)", flush=True)
        try:
            site.serve_forever()
        except KeyboardInterrupt:
            print("\nStopped")


if __name__ == "__main__":
    main()
