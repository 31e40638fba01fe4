"""The last lines of a finished page: its address, and the hash of all before, so that a device knows the whole page.

The worker (worker.js) keeps and prefers only pages that are sealed; a sign-in page, half a page and an altered one are
none, and a page of another address is not the one that was asked for.  The seal is made last: what changes a page
afterwards breaks it.
"""

import hashlib

HASH_DIGITS = 32


def sealed(page: str, address: str = "") -> str:
    """The page with its seal.

    address: of the page from the handbook's root, such as "final/rate/", "./" for the start; "" for a page that only
        leads on, which may stand at any
    """
    if address:
        page = f"{page}<!-- at {address} -->\n"
    return f"{page}<!-- sha256 {hashlib.sha256(page.encode()).hexdigest()[:HASH_DIGITS]} -->\n"
