"""The served site: its files as built, a page for what is missing, rebuilt when something is saved."""

import re
import socket
import subprocess
import threading
import time
from urllib.error import HTTPError
from urllib.request import urlopen

import pytest

from quoting.site.policy import policy
from quoting.site.serve import State, Watcher, serve, stamp, with_reload
from tests.site.node import node

PAGE = """<!DOCTYPE html><html><head>
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; script-src 'self'; style-src 'self'">
<script src="./theme/js/first.js"></script>
<link rel="stylesheet" href="./page.css"></head><body><a href="./index.html">home</a></body></html>"""


class Served:
    """A server on a free port with what it said and what it built."""

    def __init__(self, tmp_path, result=True):
        self.site, self.shop = tmp_path / "site", tmp_path / "shop"
        self.shop.mkdir()
        (self.site / "frames").mkdir(parents=True)
        for name in ("index.html", "frames/index.html", "404.html"):
            (self.site / name).write_text(PAGE, encoding="utf-8")
        (self.site / "page.css").write_text("a {}", encoding="utf-8")
        self.said, self.builds, self.result = [], 0, result
        self.stop = threading.Event()
        words = (self.build, [self.shop], self.site, 0, self.said.append, self.stop)
        self.thread = threading.Thread(target=serve, args=words)

    def build(self):
        self.builds += 1
        if isinstance(self.result, Exception):
            raise self.result
        return self.result

    def __enter__(self):
        self.thread.start()
        within(lambda: self.said)
        self.root = self.said[0].split(" ")[0].rstrip("/")
        self.run = self.get("/__version").removesuffix(".0")
        return self

    def __exit__(self, *_):
        self.stop.set()
        self.thread.join(60)
        assert not self.thread.is_alive()

    def get(self, path):
        with urlopen(self.root + path, timeout=60) as answer:
            return answer.read().decode()

    def save(self):
        """In one step, as editors save: else a watcher may see the file while it is empty, and build twice."""
        (self.shop / ".shop.yaml").write_text(str(time.monotonic_ns()), encoding="utf-8")
        (self.shop / ".shop.yaml").replace(self.shop / "shop.yaml")


def within(true, seconds=60.0):
    """Wait until something is true."""
    end = time.monotonic() + seconds
    while not true():
        assert time.monotonic() < end, "it never came"
        time.sleep(0.02)


def test_only_the_served_copy_of_a_page_carries_the_script(tmp_path):
    with Served(tmp_path) as server:
        page = server.get("/index.html")
        assert f'<script src="/__reload.js?of={server.run}.0" defer>' in page
        assert "script-src 'self'; connect-src 'self'" in page
        assert "location.reload" in server.get("/__reload.js")
        assert (server.site / "index.html").read_text(encoding="utf-8") == PAGE
        assert server.get("/page.css") == "a {}"


def test_the_served_copy_asks_this_server_and_no_other_for_the_version():
    """Of two rules of one name browsers take the first and complain of the second."""
    page = f'<meta http-equiv="Content-Security-Policy" content="{policy("https://shop.example.org")}"></head>'
    served = with_reload(page, "1.0")
    assert served.count("connect-src") == 1
    assert "connect-src 'self';" in served
    assert served.count("default-src 'none'; script-src 'self';") == 1


def test_folders_open_with_and_without_a_slash(tmp_path):
    with Served(tmp_path) as server:
        assert server.get("/frames/") == server.get("/frames") == server.get("/frames/index.html?x=1")


@pytest.mark.parametrize("top", [".", "", "/shop", "/a.b/shop"], ids=["not known", "a root", "a folder", "two folders"])
def test_what_is_missing_gets_the_sites_own_page_with_links_that_hold(tmp_path, top):
    with Served(tmp_path) as server:
        (server.site / "404.html").write_text(PAGE.replace('"./', f'"{top}/'), encoding="utf-8")
        with pytest.raises(HTTPError) as missing:
            server.get("/frames/nobody/index.html")
        with missing.value as answer:
            assert answer.code == 404
            page = answer.read().decode()
        assert 'href="/index.html"' in page
        assert 'href="/page.css"' in page


def test_a_path_that_climbs_out_finds_nothing(tmp_path):
    (tmp_path / "secret.txt").write_text("wholesale", encoding="utf-8")
    with Served(tmp_path) as server:
        host, port = server.root.removeprefix("http://").split(":")
        with socket.create_connection((host, int(port)), timeout=60) as line:
            line.sendall(b"GET /../secret.txt HTTP/1.0\r\n\r\n")
            answer = b"".join(iter(lambda: line.recv(4096), b""))
        assert b" 404 " in answer.split(b"\r\n")[0]
        assert b"wholesale" not in answer


def test_a_save_rebuilds_and_tells_the_page(tmp_path):
    with Served(tmp_path) as server:
        assert server.get("/__version") == f"{server.run}.0"
        server.save()
        within(lambda: server.get("/__version") == f"{server.run}.1")
        assert server.builds == 1


def test_a_server_that_is_started_again_is_not_taken_for_the_one_before(tmp_path):
    """Else a page that stayed open since then would keep showing what was built before."""
    for name in ("first", "second"):
        (tmp_path / name).mkdir()
    with Served(tmp_path / "first") as before, Served(tmp_path / "second") as after:
        assert before.run
        assert before.run != after.run


PAGE_OPEN = """
globalThis.reloads = 0;
globalThis.location = { reload: () => { reloads += 1; } };
globalThis.document = { currentScript: { src: "%s" } };
globalThis.fetch = async () => ({ text: async () => "%s" });
globalThis.setInterval = (ask) => { globalThis.asked = ask; };
"""


@pytest.mark.parametrize(("first_answer", "reloads"), [("{run}.0", 0), ("{run}.1", 1), ("another.0", 1)])
def test_a_build_that_ends_before_the_page_first_asks_reloads_it(tmp_path, first_answer, reloads):
    with Served(tmp_path) as server:
        source = re.search(r'<script src="([^"]+)" defer>', server.get("/index.html"))[1]
        script = server.get(source)
    page = PAGE_OPEN % (server.root + source, first_answer.format(run=server.run))
    tail = "asked().then(() => process.stdout.write(String(reloads)));"
    done = subprocess.run([node(), "-e", page + script + tail], capture_output=True, text=True, check=False)
    assert (done.stdout, done.stderr) == (str(reloads), "")


def test_a_page_says_which_build_it_was_read_from(tmp_path):
    with Served(tmp_path) as server:
        server.save()
        within(lambda: server.get("/__version") == f"{server.run}.1")
        assert f"__reload.js?of={server.run}.1" in server.get("/frames/")
        with pytest.raises(HTTPError) as missing:
            server.get("/nobody.html")
        with missing.value as answer:
            assert f"__reload.js?of={server.run}.1" in answer.read().decode()


@pytest.mark.parametrize("result", [False, None, ValueError("broken")], ids=["findings", "nothing", "defect"])
def test_a_build_that_fails_leaves_the_page_alone_and_the_server_up(tmp_path, result):
    with Served(tmp_path, result) as server:
        server.save()
        within(lambda: server.builds == 1)
        assert server.get("/__version") == f"{server.run}.0"
        server.save()
        within(lambda: server.builds == 2)
    assert ("broken" in " ".join(server.said)) == isinstance(result, Exception)


def test_the_site_itself_and_private_files_do_not_ask_for_a_build(tmp_path):
    site = tmp_path / "site-out"
    for name in ("site-out/index.html", ".site-out.x1/index.html", "private/costs.yaml", "shop.yaml"):
        (tmp_path / name).parent.mkdir(exist_ok=True)
        (tmp_path / name).write_text("x", encoding="utf-8")
    assert [path.rpartition("/")[2] for path in stamp([tmp_path], site)] == ["shop.yaml"]
    assert stamp([tmp_path / "shop.yaml"], site) == stamp([tmp_path], site)


def test_what_is_saved_before_the_first_look_counts(tmp_path):
    builds, stop = [], threading.Event()
    watcher = Watcher(lambda: builds.append(1) or stop.set(), [tmp_path], tmp_path / "site", print)
    (tmp_path / "shop.yaml").write_text("x", encoding="utf-8")
    watcher.run(State(), stop)
    assert builds == [1]


def test_a_watched_folder_that_vanishes_is_no_fault(tmp_path):
    watcher, stop = Watcher(lambda: True, [tmp_path / "gone"], tmp_path / "site", print), threading.Event()
    stop.set()
    watcher.run(State(), stop)


def test_a_port_in_use_is_told_to_the_caller(tmp_path):
    with socket.create_server(("127.0.0.1", 0)) as taken, pytest.raises(OSError, match="in use"):
        serve(lambda: True, [], tmp_path, taken.getsockname()[1], print)
