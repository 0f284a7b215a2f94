"""Build the site and serve it on this machine: python3 scripts/serve.py [--port 8000] [--watch].

With --watch the site follows its sources: an edited page is made anew and the browser shows it.
"""

from __future__ import annotations

import argparse
import io
import os
import subprocess
import sys
from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from typing import BinaryIO

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

    def list_directory(self, path: str | os.PathLike[str]) -> None:
        """Show no folder that has no page of its own."""
        self.send_error(404, f"There is no page in {Path(path).name}")

    def log_message(self, format: str, *args: object) -> None:  # noqa: A002 - the base's name
        """Say nothing about single requests."""


RELOAD = b"""
let shown;
setInterval(async () => {
  const answer = await fetch(location.href, { method: "HEAD", cache: "no-store" });
  const made = answer.ok && answer.headers.get("Last-Modified");
  if (made && shown && made !== shown) location.reload();
  shown = made || shown;
}, 500);
"""
"""Shows a page anew when its file is a newer one."""


class PreviewHandler(Handler):
    """Gives each page a script that shows it anew when it has changed."""

    def send_head(self) -> io.BytesIO | BinaryIO | None:
        """Answer for the script itself, and add it to pages."""
        if self.path == "/preview.js":
            return self._send(RELOAD, "text/javascript")
        path = Path(self.translate_path(self.path))
        if self.command != "GET" or path.suffix != ".html" or not path.is_file():
            return super().send_head()
        page = path.read_bytes().replace(b"</body>", b'<script src="/preview.js"></script></body>')
        return self._send(page, "text/html")

    def _send(self, content: bytes, kind: str) -> io.BytesIO:
        self.send_response(200)
        self.send_header("Content-Type", f"{kind}; charset=utf-8")
        self.send_header("Content-Length", str(len(content)))
        self.end_headers()
        return io.BytesIO(content)


def server(folder: Path, port: int, handler: type[Handler] = Handler) -> Server:
    """Return a server of a folder on 127.0.0.1; port 0 takes any free one.

    Raises:
        SystemExit: When another program has the port.
    """
    try:
        return Server(("127.0.0.1", port), partial(handler, directory=str(folder)))
    except OverflowError:
        sys.exit(f"Port {port} cannot be used: the highest is 65535")
    except OSError as error:
        sys.exit(
            f"Port {port} cannot be used: {error.strerror}\n"
            f"Choose another: python3 scripts/serve.py --port {port + 1}"
        )


def main() -> None:
    """Make the environment, build, serve until interrupted."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--port", type=int, default=8000)
    parser.add_argument("--watch", action="store_true", help="follow the sources of the site")
    given = parser.parse_args()
    python = str(ready(BUILD_LOCK))
    handler = PreviewHandler if given.watch else Handler
    server(SITE, given.port, handler).server_close()  # a port that is taken is said at once
    build = [python, "-m", "scripts.build", str(SITE), *["--remember"] * given.watch]
    if subprocess.run(build, cwd=ROOT, check=False).returncode:
        sys.exit("The site was not built (see above).")
    watch = [python, "-m", "scripts.watch", str(SITE)]
    with server(SITE, given.port, handler) as site:
        print(f"Serving on http://127.0.0.1:{site.server_port}/ (Ctrl+C stops)", flush=True)
        watcher = subprocess.Popen(watch, cwd=ROOT) if given.watch else None
        try:
            site.serve_forever()
        except KeyboardInterrupt:
            print("\nStopped")
        finally:
            if watcher:
                watcher.terminate()


if __name__ == "__main__":
    main()
