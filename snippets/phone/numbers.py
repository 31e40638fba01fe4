"""Numbers read and written to the last bit, which MicroPython misses, and what it lacks of `math`."""

import builtins
import math

from phone.texts import isprintable, zfill

MAX_DIGITS = 17
BITS = 53


def float(value=0.0):
    """A number, or the one in a text: the nearest that there is, which MicroPython misses by the last bit."""
    text = value.strip().replace("_", "").lower() if isinstance(value, builtins.str) else ""
    sign = text[1:] if text[:1] in ("+", "-") and text else text
    mantissa, _, power = sign.partition("e")
    integer, _, part = mantissa.partition(".")
    if not (integer + part).isdigit() or ("e" in sign and not power.lstrip("+-").isdigit()):
        return builtins.float(value)
    magnitude = nearest(int(integer + part), int(power or 0) - len(part))
    return -magnitude if text[:1] == "-" else magnitude


def nearest(digits, power):
    """The number nearest to digits times ten to a power; of two as near the even one."""
    if digits == 0:
        return 0.0
    over, under = digits * 10 ** max(power, 0), 10 ** max(-power, 0)
    shift = BITS + 2 + _bits(under) - _bits(over)
    quotient, left_over = divmod(over << max(shift, 0), under << max(-shift, 0))
    extra = _bits(quotient) - BITS
    kept, cut = quotient >> extra, quotient - (quotient >> extra << extra)
    half = 1 << (extra - 1)
    if cut > half or (cut == half and (left_over or kept & 1)):
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
    significand, shift = int(mantissa * 2.0 ** BITS), exponent - BITS
    over, under = significand << max(shift, 0), 1 << max(-shift, 0)
    first = len(builtins.str(over // under)) if over >= under else 1 - len(builtins.str(under // over))
    for count in range(1, MAX_DIGITS + 1):
        power = first - count
        top, below = over * 10 ** max(-power, 0), under * 10 ** max(power, 0)
        under_it, left_over = divmod(top, below)
        above = 2 * left_over > below or (2 * left_over == below and under_it & 1)
        # The nearer of two neighbours first; below a power of two numbers lie closer, so the other may lead back too.
        near, far = (under_it + 1, under_it) if above else (under_it, under_it + 1)
        digits = builtins.str(near if nearest(near, power) == value else far)
        if value in (nearest(near, power), nearest(far, power)):
            break
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
        return "[" + ", ".join(repr(item) for item in value) + "]"
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


def hypot(first, second):
    """The length of a line over two sides."""
    return math.sqrt(first * first + second * second)


def remainder(value, divisor):
    """What is left of a number beside the nearest multiple of another, of two as near the even one; exact."""
    size, divisor = abs(value), abs(divisor)
    left = math.fmod(size, 2.0 * divisor)  # less than two: which multiple is odd is seen
    if left > 1.5 * divisor or left == 1.5 * divisor:
        left -= 2.0 * divisor
    elif left > 0.5 * divisor:
        left -= divisor
    return -left if value < 0.0 else left
