"""Write expected.txt of every folder, and the table of codes in DEVELOPERS.md, anew:  python -m tests.errors.regenerate

Then read the difference (git diff tests/errors) as the optician would: is it clear, does it say what to do?
"""

from tests.errors.gallery import GUIDE, folders, guide, rendered


def main():
    """Write what has changed, and say which."""
    for folder in folders():
        target = folder / "expected.txt"
        text = rendered(folder)
        if not target.exists() or target.read_text(encoding="utf-8") != text:
            target.write_text(text, encoding="utf-8")
            print(f"changed: {target}")
    before = GUIDE.read_text(encoding="utf-8")
    if guide(before) != before:
        GUIDE.write_text(guide(before), encoding="utf-8")
        print(f"changed: {GUIDE}")


if __name__ == "__main__":
    main()
