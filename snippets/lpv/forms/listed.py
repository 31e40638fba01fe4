"""Whether the figures that a form was given are those that its page means: of the same edition, and whole.

A page names the figures of each approach by part of their hash.  A device, or what lies between it and the site, may
give the figures of another edition; they are told by this, and no verdict counts on them unmarked.
"""

import hashlib

OTHER_EDITION = (
    "These figures are of another edition of the handbook than this page. Load the page again with a network."
)


def is_listed(text: str, digits: str) -> bool:
    """Whether the SHA-256 of a text, in hexadecimal digits, begins with those; False where there are none."""
    return digits != "" and hashlib.sha256(text.encode()).digest().hex().startswith(digits)
