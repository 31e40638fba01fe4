"""What is from memory, on a finished page: a mark where the words stood, explained at the foot.

The words go with the mark, unseen: a screen reader, a copy and a page without its styles still have them.
"""

import re

WORDS = re.compile(r"\s*(?:\(|&#40;)from memory(?:\)|&#41;)")
# What is left as it is, whole; a tag; text.
PIECE = re.compile(r"<(a|pre|code|svg|script|style|textarea|option|summary|h[1-6])\b[^>]*>.*?</\1>|<[^>]*>|[^<]+", re.S)
MARK = '<sup class="hb-memory"><a href="#from-memory">†<span> (from memory)</span></a></sup>'
FOOT = (
    '\n<p class="hb-memory-foot" id="from-memory" data-search-exclude>† From memory: the document behind it was not '
    'read. Look it up before you rely on it. <a href="docs:reference/from-memory.md">All that is from memory</a></p>'
)


def marked(html: str) -> str:
    """The content of a page with "(from memory)" as a mark and its explanation at the foot; without it, unchanged."""
    if not WORDS.search(html):
        return html
    page = PIECE.sub(lambda piece: piece[0] if piece[0].startswith("<") else WORDS.sub(MARK, piece[0]), html)
    return page + FOOT if MARK in page else page
