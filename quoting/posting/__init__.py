"""Letters that wait, go out, and are neither sent twice nor lost."""
