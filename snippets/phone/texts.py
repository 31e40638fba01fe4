"""Methods of texts that MicroPython lacks."""

LOWEST_UNSEEN, HIGHEST_UNSEEN = 127, 160
SPACES = "".join(
    [chr(code) for code in list(range(9, 14)) + list(range(28, 33)) + list(range(0x2000, 0x200B)) + [
        0x85, 0xA0, 0x1680, 0x2028, 0x2029, 0x202F, 0x205F, 0x3000]])
# What else cannot be seen: soft hyphen, spaces that are none, direction marks, line ends, what is in private use.
UNSEEN = (
    (0xAD, 0xAD), (0x600, 0x605), (0x61C, 0x61C), (0x6DD, 0x6DD), (0x70F, 0x70F), (0x1680, 0x1680), (0x180E, 0x180E),
    (0x2000, 0x200F), (0x2028, 0x202F), (0x205F, 0x2064), (0x2065, 0x206F), (0x3000, 0x3000), (0xD800, 0xF8FF),
    (0xFEFF, 0xFEFF), (0xFFF0, 0xFFFB), (0xFFFE, 0xFFFF), (0xE0000, 0x10FFFF),
)


def isprintable(text):
    """Whether every sign can be seen, or is a space."""
    return all(_is_seen(ord(sign)) for sign in text)


def _is_seen(code):
    if code < LOWEST_UNSEEN:
        return code >= ord(" ")
    return code > HIGHEST_UNSEEN and not any(low <= code <= high for low, high in UNSEEN)


def isidentifier(text):
    """Whether a text is a name; of letters, only those of ASCII count."""
    return text != "" and not text[0].isdigit() and all(_is_plain(sign) or sign == "_" for sign in text)


def isalnum(text):
    """Whether a text has letters and digits alone; of letters, only those of ASCII count."""
    return text != "" and all(_is_plain(sign) for sign in text)


def _is_plain(sign):
    return "0" <= sign <= "9" or "a" <= sign <= "z" or "A" <= sign <= "Z"


def strip(text):
    """A text without the spaces around it, of whatever width."""
    start, end = 0, len(text)
    while start < end and text[start] in SPACES:
        start += 1
    while end > start and text[end - 1] in SPACES:
        end -= 1
    return text[start:end]


def casefold(text):
    """A text to be compared without regard to capitals."""
    return text.lower()


def removeprefix(text, start):
    """A text without its beginning."""
    return text[len(start):] if text.startswith(start) else text


def removesuffix(text, end):
    """A text without its end."""
    return text[:len(text) - len(end)] if end and text.endswith(end) else text


def ljust(text, width, sign=" "):
    """A text filled up on the right."""
    return text + sign * max(0, width - len(text))


def rjust(text, width, sign=" "):
    """A text filled up on the left."""
    return sign * max(0, width - len(text)) + text


def zfill(text, width):
    """Digits filled up with zeros, behind a sign."""
    signed = text[:1] in ("+", "-") and text != ""
    return (text[0] if signed else "") + rjust(text[1:] if signed else text, width - (1 if signed else 0), "0")


def capitalize(text):
    """A text that begins with a capital and goes on without."""
    return text[:1].upper() + text[1:].lower()


def title(text):
    """Each word with a capital."""
    made, before = "", " "
    for sign in text:
        made += sign.lower() if before.isalpha() else sign.upper()
        before = sign
    return made
