"""Write expected.txt of every folder anew:  python -m tests.errors.regenerate

Then read the difference (git diff tests/errors) as the optician would: is it clear, does it say what to do?
"""

from tests.errors.gallery import folders, rendered


def main():
    """Write what has changed, and say which."""
    for folder in folders():
        target = folder / "expected.txt"
        text = rendered(folder)
        if not target.exists() or target.read_text(encoding="utf-8") != text:
            target.write_text(text, encoding="utf-8")
            print(f"changed: {target}")


if __name__ == "__main__":
    main()
