"""Every code a finding of `build`, `serve`, `changes` and `publish` can have beside those of the shop's own files."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

PROSE = {
    "prose": "An article or page cannot be read, or says of itself what it cannot be.",
    "prose-moved": "A page names an address or template of its own, and the site's links would miss it.",
    "same-place": "Two files would stand at one address of the site, or one in the place of a page of ours.",
    "prose-language": "An article or page is written in a language that the site does not speak.",
    "broken-link": "A link in an article or page leads nowhere.",
    "no-alt": "A picture has no words for those who do not see it.",
}
COMBINATIONS = {
    "combination-incomplete": "A combination does not name all that it shows.",
    "combination-rx": "The prescription of a combination cannot be read.",
    "combination-unknown": "A combination names a frame, size, colorway or package that the shop does not have.",
    "combination-does-not-fit": "A combination shows a lens that does not fit its frame and prescription.",
    "combination-tint": "A combination shows a tint, a mirror or a state that its lens does not take or have.",
    "combination-film": "The film of a combination has no address that begins with https://, or no title.",
    "combination-sold-out": "A combination shows a colorway that is sold out.",
}
REDIRECTS = {
    "redirect-from-page": "A redirect leads away from an address at which a page stands.",
    "redirect-nowhere": "A redirect leads to an address at which no page stands.",
}
PLACES = {
    "in-the-shop": "A site would lie in a folder of the shop that is read, or that is private.",
    "not-a-site": "A folder holds other things than a site of ours, so it is not replaced.",
    "not-ours": "A site holds files that no build wrote; the next one would delete them.",
    "in-use": "Another command builds or publishes to the same folder.",
    "cannot-write": "The system does not let us write the site.",
    "no-record": "The record of a published build cannot be read, so nothing can be compared with it.",
}
BUILDING = {
    "changed-meanwhile": "A file of the shop was saved while the site was built.",
    "pages-missing": "Not all pages were written, which is a fault of ours.",
    "check-says-more": "`check` warns of things that a build does not look at.",
    "no-url": "The shop has no address on the web, so there is no sitemap and no feed.",
}
SITE_CODES: dict[str, str] = {**PROSE, **COMBINATIONS, **REDIRECTS, **PLACES, **BUILDING}
