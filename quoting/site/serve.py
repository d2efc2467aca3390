"""Show a built site on this machine, rebuild it on every save, and reload the page that is open."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import threading
from collections.abc import Callable
from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path

PAUSE_SECONDS = 0.5
RELOAD = (
    "let seen;setInterval(async()=>{const now=await(await fetch('/__version')).text();"
    "if(seen!==undefined&&seen!==now)location.reload();seen=now},700);"
)


class State:
    """How often the site was rebuilt."""

    version = 0


class Handler(SimpleHTTPRequestHandler):
    """The built files as they are, but for pages: those get the reloading script in the served copy."""

    def __init__(self, *args: object, state: State, **words: object) -> None:
        self.state = state
        super().__init__(*args, **words)  # type: ignore[arg-type]

    def do_GET(self) -> None:
        """One file, the version, or the script."""
        if self.path == "/__version":
            self._send(str(self.state.version), "text/plain", 200)
        elif self.path == "/__reload.js":
            self._send(RELOAD, "text/javascript", 200)
        else:
            self._page_or_file()

    def _page_or_file(self) -> None:
        found = Path(self.translate_path(self.path.split("?")[0]))
        found = found / "index.html" if found.is_dir() else found
        missing = Path(self.directory) / "404.html"
        if found.suffix == ".html" or not found.is_file():
            page = found if found.is_file() else missing
            self._send(with_reload(page.read_text(encoding="utf-8")), "text/html", 200 if page == found else 404)
        else:
            super().do_GET()

    def _send(self, text: str, kind: str, status: int) -> None:
        body = text.encode()
        self.send_response(status)
        self.send_header("Content-Type", f"{kind}; charset=utf-8")
        self.send_header("Content-Length", str(len(body)))
        self.send_header("Cache-Control", "no-store")
        self.end_headers()
        self.wfile.write(body)

    def log_message(self, format: str, *args: object) -> None:  # noqa: A002 - the base class's name
        """Silent: the terminal is for findings."""


def with_reload(page: str) -> str:
    """The page with the script, and a policy that lets it run."""
    page = page.replace("default-src 'none'; ", "default-src 'none'; script-src 'self'; connect-src 'self'; ", 1)
    return page.replace("</head>", '<script src="/__reload.js" defer></script>\n</head>', 1)


def stamp(watched: list[Path]) -> tuple[tuple[str, int], ...]:
    """All watched files with the time of their last change."""
    files = sorted(file for folder in watched for file in folder.rglob("*") if file.is_file())
    return tuple((str(file), file.stat().st_mtime_ns) for file in files)


def watch(build_again: Callable[[], bool], watched: list[Path], state: State, stop: threading.Event) -> None:
    """Rebuild whenever something was saved; a build with findings leaves the old site standing."""
    before = stamp(watched)
    while not stop.wait(PAUSE_SECONDS):
        try:
            now = stamp(watched)
        except FileNotFoundError:
            continue
        if now != before:
            before = now
            if build_again():
                state.version += 1


def serve(
    build_again: Callable[[], bool], watched: list[Path], output: Path, port: int, say: Callable[[str], None]
) -> None:
    """Serve on loopback until Ctrl-C."""
    state, stop = State(), threading.Event()
    with ThreadingHTTPServer(("127.0.0.1", port), partial(Handler, state=state, directory=str(output))) as server:
        watcher = threading.Thread(target=watch, args=(build_again, watched, state, stop), daemon=True)
        watcher.start()
        say(f"http://127.0.0.1:{server.server_address[1]}/  (Ctrl-C ends)")
        try:
            server.serve_forever()
        except KeyboardInterrupt:
            say("stopped")
        finally:
            stop.set()
            watcher.join()
