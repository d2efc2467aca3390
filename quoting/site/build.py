"""Build the site beside the old one, and put it in its place only when it is whole."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import errno
import os
import tempfile
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import date
from functools import partial
from pathlib import Path

from pelican import Pelican
from pelican.settings import read_settings

from quoting.catalog.checks import on_day
from quoting.catalog.load import load
from quoting.catalog.photos import photo_findings, photos_of
from quoting.catalog.sense import sense
from quoting.catalog.shop import Catalog
from quoting.choosing import in_words
from quoting.findings import Finding, Mark, errors
from quoting.languages import speaking
from quoting.offers import Offers
from quoting.places import shared
from quoting.remembered import Memory, remembering
from quoting.site.ahead import NOBODY, Ahead, ahead
from quoting.site.alone import BusyError, alone
from quoting.site.boards import Watch
from quoting.site.editions import editions
from quoting.site.heard import heard
from quoting.site.links import broken_links
from quoting.site.material import Material, Progress
from quoting.site.outline import NOT_IN_OUTLINE
from quoting.site.past import settle
from quoting.site.place import mark, misplaced, refusal, stood, unwritten
from quoting.site.prose import Prose, mingled
from quoting.site.redirects import own_redirects
from quoting.site.root import copy_root
from quoting.site.settings import settings_for
from quoting.site.swap import making, swap
from quoting.site.unchanged import Seen


@dataclass(frozen=True, slots=True)
class BuildResult:
    findings: tuple[Finding, ...]
    pages: int  # HTML files of the site that stands there now; 0 where nothing was put there
    output: Path


def in_place(_: Material, new: Path, output: Path) -> None:
    """The usual end of a build."""
    mark(new, 0, stood(output))
    swap(new, output)


def nothing_first(_: Path) -> None:
    """Nothing to be seen to before a build."""


@dataclass(frozen=True, slots=True)
class End:
    """What becomes of a site that is whole, by what it was made of, where it lies, and where it belongs."""

    put: Callable[[Material, Path, Path], None] = in_place  # raises OSError
    watch: Watch | None = None  # is shown each board on the way there
    first: Callable[[Path], None] = nothing_first  # is shown where it belongs, once nobody else works there
    jobs: int = 0  # processes that work out boards; 0: as many as pay


IN_PLACE = End()


def nothing(_: int, __: int, ___: str) -> None:
    """Progress that nobody watches."""


def prose_of(shop: Path) -> Path | None:
    """The shop's own ``content``; the demo's lies beside it.  None: a site without prose."""
    if (shop / "content").is_dir():
        return shop / "content"
    return shared("content") if shop.resolve() == shared("demo_catalog").resolve() else None


def rendered(
    offers: Offers,
    shop: Path,
    content: Path,
    output: Path,
    progress: Progress,
    watch: Watch | None = None,
    working: Ahead = NOBODY,
    outline: bool = False,
) -> Material:
    """Everything in ``output``, in every language; what was found is in the result's findings.

    The first edition is made last: it tells machines of all pages there are.  Pictures are there once, for all, and
    not in an ``outline``, whose files hold nothing but prose.
    """
    first, *others = editions(offers.catalog.shop)
    folders = tuple(one.folder.rstrip("/") for one in others)
    steps = [partial(in_all, progress, at, len(others) + 1) for at in range(len(others) + 1)]
    said = {one: in_words(offers, one.tongue.language) for one in (first, *others)}
    plan = partial(Material, ahead=working, outline=outline)
    site = plan(said[first], steps[-1], Prose(content, folders=folders), watch=watch, edition=first)
    site.cards.output = output
    if not outline and any(photos_of(frame) for frame in site.frames):
        progress(0, site.total * len(steps), "photos")
    site.findings += [] if outline else site.album.make(shop, offers.catalog, output)
    made = [
        plan(said[one], steps[at], Prose(content), edition=one, album=site.album, cards=site.cards)
        for at, one in enumerate(others)
    ]
    for one in made:
        edition_rendered(one, output / one.here.folder)
    edition_rendered(site, output, lambda: copy_root(content, output) + own_redirects(offers.catalog.shop, output))
    site.cards.clear_out()
    site.findings[:] = dict.fromkeys(finding for one in (site, *made) for finding in one.findings)
    return site


def in_all(progress: Progress, at: int, count: int, written: int, total: int, what: str) -> None:
    """Progress of one of several editions as progress of the whole."""
    progress(at * total + written, count * total, what)


def edition_rendered(site: Material, output: Path, more: Callable[[], list[Finding]] = list) -> None:
    """One language of the site, and ``more`` files of it; what was found is in its findings."""
    content = site.prose.folder
    with speaking(site.here.tongue), heard(content) as log:
        try:
            Pelican(read_settings(override=settings_for(site, content, output))).run()
            log.findings += site.prose.clashes() + more()
            log.findings += broken_links(site.prose.pages, output, content, NOT_IN_OUTLINE if site.outline else ())
        except RuntimeError as stopped:  # its word for two files in one place that we did not foresee
            mark = Mark(str(content), 1, 1)
            log.findings.append(Finding(mark, "prose", str(stopped), "give each article and page a slug of its own"))
    site.findings.extend(log.findings)
    if site.written != site.total and not errors(site.findings):
        said = f"{site.written} of {site.total} pages were written"
        site.findings.append(Finding(site.catalog.shop.mark, "pages-missing", said, "build again, and tell us"))


def notes(catalog: Catalog, day: date) -> list[Finding]:
    """What the site does without, and why; and how much of the shop's sense only `check` tells of.

    What the engine would have to be asked for is not counted here: that takes longer than it is worth at each build.
    """
    found = []
    if not catalog.shop.url:
        said = "without `url` the site has no sitemap and no feed: both need its full address"
        hint = "write `url: https://...` once you know it"
        found.append(Finding(catalog.shop.mark, "no-url", said, hint, "note"))
    if more := len(sense(catalog, day)) - len(on_day(catalog, day)):
        said = f"`check` says at least {more} {'thing' if more == 1 else 'things'} more of this shop"
        found.append(Finding(catalog.shop.mark, "check-says-more", said, "run it before you publish", "note"))
    return found


def build(
    shop_folder: Path,
    output: Path,
    day: date,
    progress: Progress | None = None,
    content: Path | None = None,
    end: End = IN_PLACE,
) -> BuildResult:
    """Check the shop and build its site into ``output``.  Any error leaves what stands there as it was."""
    seen = Seen.now(shop_folder, content or prose_of(shop_folder))  # before anything is read
    catalog, findings = load(shop_folder, day)
    if content is not None and not content.is_dir():
        findings.append(Finding(Mark(str(content), 1, 1), "no-such-folder", "this folder is not there"))
    try:
        place = resolved(output)
        if wrong := misplaced(output, shop_folder, content):
            return BuildResult((*findings, *wrong), 0, output)
        findings += mingled(seen.content, shop_folder) if seen.content is not None else []
        with alone(place):
            settle(place)
            findings += refusal(output)
            findings += photo_findings(shop_folder, catalog.frames.values()) if catalog is not None else []
            if catalog is None or errors(findings):
                return BuildResult(tuple(findings), 0, output)
            findings += on_day(catalog, day) + notes(catalog, day)
            end.first(place)
            with remembered(shop_folder) as memory:
                return built(Offers(catalog, day, memory), seen, place, progress or nothing, findings, end)
    except BusyError as busy:
        return BuildResult((*findings, busy.finding(output)), 0, output)
    except OSError as error:
        return BuildResult((*findings, unwritten(error, output)), 0, output)


@contextmanager
def remembered(shop: Path) -> Iterator[Memory]:
    """What the engine answered before; what it answers now is kept unless the build breaks off."""
    memory = Memory.of(shop)
    try:
        yield memory
    except BaseException:
        memory.close(keep=False)
        raise
    memory.close(keep=True)


def resolved(output: Path) -> Path:
    """Where a folder really is.   Raises OSError for links in a circle."""
    try:
        return output.resolve()
    except RuntimeError as error:
        raise OSError(errno.ELOOP, os.strerror(errno.ELOOP), str(output)) from error


def built(
    offers: Offers, seen: Seen, output: Path, progress: Progress, findings: list[Finding], end: End
) -> BuildResult:
    """Render beside ``output``, and put it there if nothing speaks against it.   Raises OSError."""
    with tempfile.TemporaryDirectory(prefix=making(output), dir=output.parent, ignore_cleanup_errors=True) as side:
        new, empty = Path(side) / "site", Path(side) / "no-prose"
        new.mkdir()
        empty.mkdir()
        with remembering(offers.memory), ahead(offers, end.jobs) as working:
            site = rendered(offers, seen.shop, seen.content or empty, new, progress, end.watch, working)
        findings = [*findings, *site.findings, *seen.findings(), *refusal(output)]  # somebody may have put a file there
        if errors(findings):
            return BuildResult(tuple(findings), 0, output)
        pages = sum(1 for _ in new.rglob("*.html"))
        end.put(site, new, output)
    return BuildResult(tuple(findings), pages, output)
