"""Built-in functions and methods of texts that MicroPython lacks, and a dict that keeps its order."""

import builtins
import math
from collections import OrderedDict, namedtuple

__all__ = ["namedtuple"]
RecursionError = RuntimeError  # as which MicroPython raises it
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


def ordered(*pairs, **named):
    """A dict of pairs, of another dict, or of names."""
    made = OrderedDict()
    for each in pairs:
        for key, value in each.items() if hasattr(each, "items") else each:
            made[key] = value
    for key in named:
        made[key] = named[key]
    return made


def merged(*parts):
    """Several dicts or rows of pairs as one."""
    return ordered(*parts)


def fromkeys(keys, value=None):
    """A dict with one value for all keys."""
    return ordered([(key, value) for key in keys])


def vars(made):
    """The attributes of an object; of a record its fields, in their order."""
    names = getattr(made, "FIELDS", None)
    if names is None:
        return ordered(made.__dict__)
    return ordered([(name, getattr(made, name)) for name in names])


def zip(*rows, strict=False):
    """Rows side by side; ValueError where they must be of one length and are not."""
    if strict:
        rows = tuple([list(row) for row in rows])
        if len({len(row) for row in rows}) > 1:
            raise ValueError("rows of different lengths")
    return builtins.zip(*rows)  # noqa: B905  (the phone knows no `strict`)


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


def hypot(first, second):
    """The length of a line over two sides."""
    return math.sqrt(first * first + second * second)


def stepped(row, start, stop, step):
    """row[start:stop:step], of a text, a list or a tuple."""
    length = len(row)
    forward = step > 0
    ends = []
    for end, none in ((start, 0 if forward else length - 1), (stop, length if forward else -1)):
        if end is None:
            ends.append(none)
        else:
            end = end + length if end < 0 else end
            ends.append(max(0, min(end, length)) if forward else max(-1, min(end, length - 1)))
    found = [row[place] for place in range(ends[0], ends[1], step)]
    return "".join(found) if isinstance(row, builtins.str) else tuple(found) if isinstance(row, tuple) else found


def remainder(value, by):
    """What is left of a number beside the nearest multiple of another, of two as near the even one; exact."""
    size, by = abs(value), abs(by)
    left = math.fmod(size, 2.0 * by)  # less than two: which multiple is odd is seen
    if left > 1.5 * by or left == 1.5 * by:
        left -= 2.0 * by
    elif left > 0.5 * by:
        left -= by
    return -left if value < 0.0 else left


MOST_DIGITS = 17
BITS = 53


def float(value=0.0):
    """A number, or the one in a text: the nearest that there is, which MicroPython misses by the last bit."""
    text = value.strip().replace("_", "").lower() if isinstance(value, builtins.str) else ""
    sign = text[1:] if text[:1] in ("+", "-") and text else text
    mantissa, _, power = sign.partition("e")
    whole, _, part = mantissa.partition(".")
    if not (whole + part).isdigit() or ("e" in sign and not power.lstrip("+-").isdigit()):
        return builtins.float(value)
    found = nearest(int(whole + part), int(power or 0) - len(part))
    return -found if text[:1] == "-" else found


def nearest(digits, power):
    """The number nearest to digits times ten to a power; of two as near the even one."""
    if digits == 0:
        return 0.0
    over, under = digits * 10 ** max(power, 0), 10 ** max(-power, 0)
    shift = BITS + 2 + _bits(under) - _bits(over)
    whole, rest = divmod(over << max(shift, 0), under << max(-shift, 0))
    extra = _bits(whole) - BITS
    kept, cut = whole >> extra, whole - (whole >> extra << extra)
    half = 1 << (extra - 1)
    if cut > half or (cut == half and (rest or kept & 1)):
        kept += 1
    try:
        return math.ldexp(builtins.float(kept), extra - shift)
    except OverflowError:
        return math.inf


def _bits(number):
    return len(bin(number)) - 2


def said(value):
    """A number as the shortest text that is read as the same one; anything else as it is."""
    if not isinstance(value, builtins.float) or value != value or value in (math.inf, -math.inf):
        return value
    start = "-" if math.copysign(1.0, value) < 0.0 else ""
    digits, power = _shortest(abs(value))
    point = len(digits) + power
    if value == 0.0 or -4 < point <= 16:
        if power >= 0:
            return start + digits + "0" * power + ".0"
        padded = "0" * (1 - point) + digits if point < 1 else digits
        place = max(point, 1)
        return start + padded[:place] + "." + padded[place:]
    mantissa = digits[0] + ("." + digits[1:] if len(digits) > 1 else "")
    return start + mantissa + "e" + ("-" if point < 1 else "+") + zfill(builtins.str(abs(point - 1)), 2)


def _shortest(value):
    """(digits, power of ten behind them), as few digits as lead back to the number."""
    if value == 0.0:
        return "0", 0
    mantissa, exponent = math.frexp(value)
    whole, shift = int(mantissa * 2.0 ** BITS), exponent - BITS
    over, under = whole << max(shift, 0), 1 << max(-shift, 0)
    first = len(builtins.str(over // under)) if over >= under else 1 - len(builtins.str(under // over))
    for count in range(1, MOST_DIGITS + 1):
        power = first - count
        top, below = over * 10 ** max(-power, 0), under * 10 ** max(power, 0)
        rounded, rest = divmod(top, below)
        if 2 * rest > below or (2 * rest == below and rounded & 1):
            rounded += 1
        if nearest(rounded, power) == value:
            break
    digits = builtins.str(rounded)
    kept = digits.rstrip("0")
    return kept, power + len(digits) - len(kept)


def str(value=""):
    """A text of a value."""
    return builtins.str(said(value))


ESCAPED = {"\\": "\\\\", "\n": "\\n", "\r": "\\r", "\t": "\\t"}


def repr(value):
    """A value as Python writes it; of what cannot be seen, the number."""
    if isinstance(value, builtins.float) and value == value:
        return said(value)
    if isinstance(value, builtins.str):
        quote = '"' if "'" in value and '"' not in value else "'"
        return quote + "".join(_escaped(sign, quote) for sign in value) + quote
    if isinstance(value, list):
        return "[" + ", ".join(repr(each) for each in value) + "]"
    if isinstance(value, dict):
        return "{" + ", ".join(repr(key) + ": " + repr(value[key]) for key in value) + "}"
    return builtins.repr(value)


def _escaped(sign, quote):
    if sign == quote:
        return "\\" + sign
    return ESCAPED.get(sign) or (sign if isprintable(sign) else _number_of(ord(sign)))


def _number_of(code):
    for start, digits, most in (("\\x", 2, 0x100), ("\\u", 4, 0x10000), ("\\U", 8, 0x110000)):
        if code < most:
            return start + zfill(hex(code)[2:], digits)
    return ""
