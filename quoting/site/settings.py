"""Pelican's settings for one build."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from pathlib import Path
from typing import Any

from quoting.languages import decimals
from quoting.places import shared
from quoting.show import terms
from quoting.show.amounts import band, day, mm, money, plain, power
from quoting.show.lines import line_text, rate_text
from quoting.show.text import lens_name, pd_text, rx_lines
from quoting.show.versions import color_text
from quoting.site import generator, sorting
from quoting.site.cells import SIGNS
from quoting.site.material import Material
from quoting.site.policy import policy
from quoting.site.swaps import takers
from quoting.site.texts import Texts
from quoting.site.wide_tables import in_regions

# What the theme may use beside the material itself
FILTERS = {
    "money": money,
    "power": power,
    "mm": mm,
    "band": band,
    "plain": plain,
    "day": day,
    "decimals": decimals,
    "mounting": terms.mounting,
    "family": terms.family,
    "light": terms.light,
    "stock": terms.stock,
    "place": terms.place,
    "folder": terms.part,
    "by_maker": sorting.by_maker,
    "by_title": sorting.by_title,
    "families": sorting.families,
    "mountings": sorting.mountings,
    "makers": sorting.makers,
    "rate": rate_text,
    "line_text": line_text,
    "lens_name": lens_name,
    "rx_lines": rx_lines,
    "pd_text": pd_text,
    "color": color_text,
    "policy": policy,
    "takers": takers,
    "in_regions": in_regions,
}

NOTHING = ("AUTHOR", "AUTHORS", "TAG", "TAGS", "CATEGORY", "CATEGORIES", "ARCHIVES", "DRAFT", "DRAFT_PAGE")


def settings_for(site: Material, content: Path, output: Path) -> dict[str, Any]:
    """What differs from Pelican's defaults."""
    shop = site.catalog.shop
    root = site.here.address(shop)
    return {
        generator.SETTING: site,
        "PLUGINS": [generator],
        "PATH": str(content),
        "OUTPUT_PATH": str(output),
        "THEME": str(shared("theme")),
        "THEME_STATIC_PATHS": [],  # see assets.py
        "SITENAME": shop.name,
        "SITEURL": root,
        "RELATIVE_URLS": True,
        "TIMEZONE": "UTC",
        "DEFAULT_LANG": site.here.tag,
        # A file that takes others into itself (reStructuredText: include, raw, csv-table) could name any file here
        "DOCUTILS_SETTINGS": {"file_insertion_enabled": False},
        "JINJA_ENVIRONMENT": {
            "autoescape": True,
            "trim_blocks": True,
            "lstrip_blocks": True,
            "extensions": [Texts],
        },
        "JINJA_FILTERS": FILTERS,
        "JINJA_GLOBALS": {
            "kinds": {name: terms.kind(name) for name in terms.KINDS},
            "signs": SIGNS,
            "verdicts": {name: terms.verdict(name) for name in terms.VERDICTS},
        },
        "ARTICLE_PATHS": ["combinations", "guides"],
        "PATH_METADATA": r"(?P<folder>[^/]+)/.*",
        "PAGE_PATHS": ["pages"],
        "STATIC_PATHS": ["images"],
        "ARTICLE_URL": "{folder}/{slug}/index.html",
        "ARTICLE_SAVE_AS": "{folder}/{slug}/index.html",
        "ARTICLE_LANG_URL": "{folder}/{slug}/index.html",
        "ARTICLE_LANG_SAVE_AS": "{folder}/{slug}/index.html",
        "ARTICLE_TRANSLATION_ID": None,
        "PAGE_URL": "{slug}/index.html",
        "PAGE_SAVE_AS": "{slug}/index.html",
        "PAGE_LANG_URL": "{slug}/index.html",
        "PAGE_LANG_SAVE_AS": "{slug}/index.html",
        "PAGE_TRANSLATION_ID": None,
        "DIRECT_TEMPLATES": [],
        "FEED_DOMAIN": root,
        "FEED_ALL_ATOM": None,
        "CATEGORY_FEED_ATOM": None,
        "TRANSLATION_FEED_ATOM": None,
        "AUTHOR_FEED_ATOM": None,
        "AUTHOR_FEED_RSS": None,
        "WITH_FUTURE_DATES": True,
        "LOAD_CONTENT_CACHE": False,
        **{f"{name}_SAVE_AS": "" for name in NOTHING},
    }
