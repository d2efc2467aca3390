"""A quote as it was issued: what it holds, how it becomes a link, and how a link is opened and trusted."""
