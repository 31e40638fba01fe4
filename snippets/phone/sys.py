"""What a library asks the interpreter for."""

from collections import namedtuple

FloatInfo = namedtuple("FloatInfo", ("epsilon", "min", "max", "mant_dig"))
Implementation = namedtuple("Implementation", ("name",))
float_info = FloatInfo(2.0 ** -52, 2.0 ** -1022, (2.0 - 2.0 ** -52) * 2.0 ** 1023, 53)
implementation = Implementation("micropython")
version_info = (3, 11)
