"""Write each expected.txt, and the tables of codes in DEVELOPERS.md, anew:  python -m tests.errors.regenerate

Then read the difference (git diff tests/errors) as the optician would: is it clear, does it say what to do?
"""

from tests.errors import command_gallery, gallery, prescription_gallery
from tests.errors.gallery import GUIDE, guide


def main():
    """Write what has changed, and say which."""
    cases = [
        (folder, one.rendered) for one in (gallery, command_gallery, prescription_gallery) for folder in one.folders()
    ]
    for folder, rendered in cases:
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
