"""Show a built site on this machine, rebuild it on every save, and reload the page that is open.

The files stay as they are built: only the served copy of a page carries the reloading script.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import re
import secrets
import sys
import threading
from collections.abc import Callable, Iterable
from dataclasses import dataclass, field
from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from typing import Any
from urllib.parse import urlsplit

from quoting.site.place import PRIVATE

PAUSE_SECONDS = 0.5
VERSION, SCRIPT = "/__version", "/__reload.js"
# A page is compared with the build it was read from, which stands in the address of its script: a build that ends
# between reading and the first question counts, too
RELOAD = f"""const mine = new URL(document.currentScript.src).searchParams.get("of");
setInterval(async () => {{
  try {{
    const now = await (await fetch("{VERSION}", {{cache: "no-store"}})).text();
    if (now !== mine) location.reload();
  }} catch {{ /* the server is away; ask again */ }}
}}, 700);
"""
FIRST = re.compile(r'\bsrc="([^"]*)/theme/js/first\.js"')  # of every page: what leads from it to the top of the site


@dataclass
class State:
    """Which build is shown, told apart from those of any earlier run: a page may be open since then."""

    run: str = field(default_factory=lambda: secrets.token_hex(4))
    builds: int = 0

    @property
    def version(self) -> str:
        """The run, and how often the site was rebuilt in it."""
        return f"{self.run}.{self.builds}"


class Handler(SimpleHTTPRequestHandler):
    """The built files; pages get the reloading script."""

    def __init__(self, *args: Any, state: State, **words: Any) -> None:
        self.state = state
        super().__init__(*args, **words)

    def do_GET(self) -> None:
        """One file, the version, or the script."""
        path = urlsplit(self.path).path
        if path == VERSION:
            self._send(self.state.version, "text/plain")
        elif path == SCRIPT:
            self._send(RELOAD, "text/javascript")
        else:
            self._page_or_file(path)

    def _page_or_file(self, path: str) -> None:
        version = self.state.version  # asked before the page is read: a build meanwhile makes it reload, not stay
        found = Path(self.translate_path(self.path))
        if found.is_dir() and not path.endswith("/"):
            super().do_GET()  # sends the reader to the same place with a slash, so that relative links hold
            return
        found = found / "index.html" if found.is_dir() else found
        if not found.is_file():
            self._missing(version)
        elif found.suffix == ".html":
            self._send(with_reload(found.read_text(encoding="utf-8"), version), "text/html")
        else:
            super().do_GET()

    def _missing(self, version: str) -> None:
        """The site's own page for it; its links are made to hold here, where the site stands at the top."""
        page = Path(self.directory) / "404.html"
        text = page.read_text(encoding="utf-8") if page.is_file() else "<!DOCTYPE html><title>Not here</title></head>"
        top = FIRST.search(text)
        if top:
            text = re.sub(rf'\b(href|src)="{re.escape(top[1])}/', r'\1="/', text)
        self._send(with_reload(text, version), "text/html", 404)

    def _send(self, text: str, kind: str, status: int = 200) -> None:
        body = text.encode()
        self.send_response(status)
        self.send_header("Content-Type", f"{kind}; charset=utf-8")
        self.send_header("Content-Length", str(len(body)))
        self.end_headers()
        self.wfile.write(body)

    def end_headers(self) -> None:
        """Nothing is kept: the next save changes it."""
        self.send_header("Cache-Control", "no-store")
        super().end_headers()

    def log_message(self, format: str, *args: Any) -> None:  # noqa: A002 - the base class's name
        """Silent: the terminal is for findings."""


class Server(ThreadingHTTPServer):
    """On loopback, one thread a request."""

    def handle_error(self, request: Any, client_address: Any) -> None:
        """A browser that goes away in the middle of an answer is no fault."""
        if not isinstance(sys.exc_info()[1], ConnectionError):
            super().handle_error(request, client_address)


def with_reload(page: str, version: str) -> str:
    """The page with the script, and a policy that lets it run; ``version``: the build it was read from."""
    page = re.sub(r"(default-src [^\">]*)connect-src [^;\">]*; ", r"\1", page, count=1)  # of two only one would hold
    page = page.replace("script-src 'self'; ", "script-src 'self'; connect-src 'self'; ", 1)
    return page.replace("</head>", f'<script src="{SCRIPT}?of={version}" defer></script>\n</head>', 1)


def stamp(watched: Iterable[Path], output: Path) -> dict[str, tuple[int, int]]:
    """All watched files (those in folders, too) with time and length; what vanishes meanwhile is left out.

    The site itself may lie in a watched folder: it and hidden files are left out, or each build would ask for the next.
    So are private files, of which a build reads nothing.
    """
    found: dict[str, tuple[int, int]] = {}
    for place in (one.resolve() for one in watched):
        for file in [place] if place.is_file() else place.rglob("*"):
            inner = file.relative_to(place).parts
            if PRIVATE in inner or any(part.startswith(".") for part in inner) or file.is_relative_to(output):
                continue
            try:
                about = file.stat()
            except OSError:
                continue
            if file.is_file():
                found[str(file)] = (about.st_mtime_ns, about.st_size)
    return found


@dataclass
class Watcher:
    """Rebuilds whenever something was saved; a build with findings leaves the old site standing."""

    build_again: Callable[[], object]
    watched: list[Path]
    output: Path
    say: Callable[[str], None]

    def __post_init__(self) -> None:
        # seen before anybody is told that we watch: a save right after that counts
        self.before = stamp(self.watched, self.output)

    def run(self, state: State, stop: threading.Event) -> None:
        """Until ``stop`` is set."""
        while not stop.wait(PAUSE_SECONDS):
            now = stamp(self.watched, self.output)
            if now != self.before:
                self.before = now
                state.builds += self._built()

    def _built(self) -> bool:
        try:
            return bool(self.build_again())
        except Exception as error:  # a defect of ours: told, and the next save gets its chance
            self.say(f"the build broke off, and that is our fault: {error!r}")
            return False


def serve(
    build_again: Callable[[], object],
    watched: list[Path],
    output: Path,
    port: int,
    say: Callable[[str], None] = print,
    stop: threading.Event | None = None,
) -> None:
    """Serve ``output`` on loopback until Ctrl-C, or until ``stop`` is set.   Raises OSError if the port is taken.

    ``build_again`` builds, tells its own findings, and returns something true where a new site stands.  Port 0: any.
    """
    state, stop, output = State(), stop or threading.Event(), output.resolve()
    handler = partial(Handler, state=state, directory=str(output))
    watcher = Watcher(build_again, watched, output, say)
    with Server(("127.0.0.1", port), handler) as server:
        server.timeout = PAUSE_SECONDS
        thread = threading.Thread(target=watcher.run, args=(state, stop), daemon=True)
        thread.start()
        say(f"http://127.0.0.1:{server.server_address[1]}/  (Ctrl-C ends)")
        try:
            while not stop.is_set():
                server.handle_request()
        except KeyboardInterrupt:
            say("stopped")
        finally:
            stop.set()
            thread.join()
