"""What the theme brings along and this site does not serve: source maps, stemmers of other languages, its mark."""

import re

LEFT_OUT = re.compile(r"assets/(?:.*\.map|javascripts/lunr/.*|images/favicon\.png)")
MAP_NAMED = re.compile(r"\n?(?://#|/\*#) sourceMappingURL=[\w.]+\.map(?: \*/)?\s*\Z")


def is_served(address: str) -> bool:
    """Whether a file of the theme belongs into the output."""
    return not LEFT_OUT.fullmatch(address)


def without_map(text: str) -> str:
    """A script or style sheet that no longer names its source map."""
    return MAP_NAMED.sub("\n", text)
