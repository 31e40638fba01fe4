"""The last line of a finished page: the hash of all before it, so that a device knows the whole page from half of one.

The worker (worker.js) keeps and prefers only pages that are sealed; a sign-in page, half a page and an altered one are
none.  The seal is made last: what changes a page afterwards breaks it.
"""

import hashlib

HASH_DIGITS = 32


def sealed(page: str) -> str:
    """The page with its seal."""
    return f"{page}<!-- sha256 {hashlib.sha256(page.encode()).hexdigest()[:HASH_DIGITS]} -->\n"
