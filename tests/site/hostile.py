"""A shop in which every text that an owner may choose freely looks like markup, and like the end of a value."""

import json
import re
import shutil
from pathlib import Path

from tests.site.conftest import COMBINATION, CORNER

# Ends an attribute, opens elements and a comment, ends a script and a block of data, and looks like two entities
HOSTILE = "\"><script>a()</script><b id='x'>&lt;&copy<!--{{7}}"
# What is free text in which folder; elsewhere the same word may name something by its id
FREE = {
    "frames": ("maker", "name", "material", "about"),
    "lenses": ("maker", "name", "coating", "about"),
    "prices": ("text", "name"),
    ".": ("name",),
}
VALUE = r'"[^"]*"|[^,}\n]+'


def spoiled(text: str, keys: tuple[str, ...]) -> str:
    """YAML in which the values of these keys begin with what is hostile, and end as they did."""

    def value(found: re.Match[str]) -> str:
        return found[1] + json.dumps(HOSTILE + found[2].strip('"'), ensure_ascii=False)

    return re.sub(rf"(\b(?:{'|'.join(keys)}): )({VALUE})", value, text)


def hostile_shop(folder: Path) -> Path:
    """The small shop with hostile texts, an address, and prose whose titles and summaries are hostile too."""
    shutil.copytree(CORNER, folder)
    for place, keys in FREE.items():
        for path in sorted((folder / place).glob("*.yaml")):
            path.write_text(spoiled(path.read_text(encoding="utf-8"), keys), encoding="utf-8")
    shop = folder / "shop.yaml"
    text = shop.read_text(encoding="utf-8")
    text = text.replace("[4 Mill Stair, Underhythe]", json.dumps([HOSTILE, HOSTILE]))
    text = text.replace("Two frames, three lenses", json.dumps(HOSTILE))
    text = text.replace('"555 0114"', json.dumps(HOSTILE[:40]))
    text = text.replace("- An estimate", f"- {json.dumps(HOSTILE + 'one')}\n  - An estimate")
    text = text.replace("  locale: en_US", "  locale: en_US\n  url: https://www.example.org/shop")
    shop.write_text(text, encoding="utf-8")
    for kind, words in (("combinations", COMBINATION), ("guides", {}), ("pages", {})):
        words = {"Title": HOSTILE, "Slug": "one", "Date": "2026-01-05", "Summary": HOSTILE} | words
        path = folder / "content" / kind / "one.md"
        path.parent.mkdir(parents=True)
        path.write_text("".join(f"{key}: {value}\n" for key, value in words.items()) + "\nWords.\n", encoding="utf-8")
    return folder
