"""Lighthouse on the first page and the page of a frame.

    python -m tests.bench.lighthouse

Lighthouse (Google, Apache 2.0) is fetched by npm into a folder that goes again; it drives the Chromium that is here.
The site is the demo's, served from this machine and compressed, as web hosts do.  Performance is the middle of three
runs on a phone as Lighthouse imagines it; other work on this machine lowers it, so let nothing else run.
Ends with 1 where a score is below its limit.
"""

import gzip
import json
import os
import shutil
import subprocess
import sys
import tempfile
import threading
from datetime import date
from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from statistics import median

from quoting.findings import errors
from quoting.places import shared
from quoting.site.build import build
from tests.web.conftest import CHROMIUM, SWITCHES

VERSION = "12.2.3"  # runs on Node 18 and later
RX = "#od=-6.25,-1.25,10&os=-5.75&pd=31,32"
PAGES = ("index.html", "frames/cottering/index.html", f"frames/cottering/index.html{RX}")
# The last one is told and has no limit: what it works out belongs to a visitor who is there already
LIMITED = PAGES[:2]
LIMITS = {"performance": 99, "accessibility": 100, "best-practices": 100, "seo": 100}
RUNS = 3
HOME = b"https://ottersea.example.org"
COMPRESSED = (".html", ".css", ".js", ".svg", ".xml", ".txt")


class Host(SimpleHTTPRequestHandler):
    """Serves files as a usual host does: compressed where the browser can read that, and to be kept for a while."""

    protocol_version = "HTTP/1.1"

    def do_GET(self):
        """A file, or 404."""
        path = Path(self.translate_path(self.path))
        path = path / "index.html" if path.is_dir() else path
        if not path.is_file():
            self.send_error(404)
            return
        body, kind = path.read_bytes(), self.guess_type(str(path))
        if path.suffix in COMPRESSED:  # the site as if this were its own address
            body = body.replace(HOME, f"http://{self.headers['Host']}".encode())
        self.send_response(200)
        if path.suffix in COMPRESSED and "gzip" in self.headers.get("Accept-Encoding", ""):
            body = gzip.compress(body, 9, mtime=0)
            self.send_header("Content-Encoding", "gzip")
        self.send_header("Content-Type", f"{kind}; charset=utf-8" if path.suffix in COMPRESSED else kind)
        self.send_header("Content-Length", str(len(body)))
        self.send_header("Cache-Control", "max-age=31536000")
        self.end_headers()
        self.wfile.write(body)

    def log_message(self, *_):
        """Nothing to say."""


def fetched(folder):
    """Lighthouse, installed there."""
    npm = shutil.which("npm")
    if npm is None or CHROMIUM is None:
        sys.exit("npm and Chromium are needed")
    subprocess.run(
        [npm, "install", "--silent", "--no-fund", "--no-audit", "--no-save", f"lighthouse@{VERSION}"],
        cwd=folder,
        check=True,
    )
    return folder / "node_modules" / "lighthouse" / "cli" / "index.js"


def report(program, address, folder):
    """What Lighthouse says of one page."""
    out = folder / "report.json"
    flags = " ".join(["--headless=new", *SWITCHES])
    command = ["node", program, address, "--quiet", "--output=json", f"--output-path={out}", f"--chrome-flags={flags}"]
    environment = os.environ | {"CHROME_PATH": CHROMIUM}
    subprocess.run(command, cwd=folder, env=environment, check=True, stdout=subprocess.DEVNULL)
    return json.loads(out.read_text(encoding="utf-8"))


def scores(found):
    """The four scores, out of 100."""
    return {name: round(found["categories"][name]["score"] * 100) for name in LIMITS}


def wanting(found):
    """The audits that count and are not passed, with what Lighthouse shows of them."""
    for name in LIMITS:
        for one in found["categories"][name]["auditRefs"]:
            audit = found["audits"][one["id"]]
            if one["weight"] and audit["score"] is not None and audit["score"] < (0.9 if name == "performance" else 1):
                shown = json.dumps((audit.get("details") or {}).get("items", [])[:2])
                yield f"{name}: {audit['title']} {audit.get('displayValue', '')} {shown[:400]}"


def judged(program, root, folder):
    """Rows of the table, and whether all limits are held."""
    held = True
    for page in PAGES:
        found = [report(program, f"{root}/{page}", folder) for _ in range(RUNS)]
        points = {name: median(scores(one)[name] for one in found) for name in LIMITS}
        metrics = found[0]["audits"]
        times = {name: metrics[name]["displayValue"] for name in ("first-contentful-paint", "largest-contentful-paint")}
        times |= {name: metrics[name]["displayValue"] for name in ("total-blocking-time", "cumulative-layout-shift")}
        print(f"{page}\n  {points}\n  {times}", flush=True)
        for line in sorted({line for one in found for line in wanting(one)}):
            print(f"  {line}")
        if page in LIMITED:
            held = held and all(points[name] >= least for name, least in LIMITS.items())
    return held


def main():
    """Print the scores; end with 1 where one is below its limit."""
    with tempfile.TemporaryDirectory() as place:
        folder = Path(place)
        program = fetched(folder)
        assert errors(build(shared("demo_catalog"), folder / "site", date(2026, 11, 25)).findings) == []
        with ThreadingHTTPServer(("127.0.0.1", 0), partial(Host, directory=str(folder / "site"))) as server:
            thread = threading.Thread(target=server.serve_forever)
            thread.start()
            try:
                held = judged(program, f"http://127.0.0.1:{server.server_address[1]}", folder)
            finally:
                server.shutdown()
                thread.join()
    sys.exit(0 if held else 1)


if __name__ == "__main__":
    main()
