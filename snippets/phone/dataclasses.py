"""Records as `dataclasses` makes them, of classes that do not keep the names of their fields."""

from collections import OrderedDict

MISSING = object()
METHODS = ("__init__", "__eq__", "__hash__", "__repr__")


class Field:
    """One field: its default, how that is made, and what is noted beside it."""

    def __init__(self, default, default_factory, metadata):
        self.name = ""
        self.default = default
        self.default_factory = default_factory
        self.metadata = metadata


def field(default=MISSING, default_factory=MISSING, metadata=None):
    """A field that is more than a name."""
    return Field(default, default_factory, metadata or {})


def dataclass(*names):
    """Makes a record of a class with these fields, in this order, after those of its bases."""

    def made(record):
        own_fields = OrderedDict()
        for base in record.__bases__:
            for name in getattr(base, "FIELDS", {}):
                own_fields[name] = base.FIELDS[name]
        for name in names:
            value = getattr(record, name, MISSING)
            entry = value if isinstance(value, Field) else Field(value, MISSING, {})
            entry.name = name
            own_fields[name] = entry
        record.FIELDS = own_fields
        for name, method in (("__init__", _init), ("__eq__", _eq), ("__hash__", _hash), ("__repr__", _repr)):
            setattr(record, name, method)
        return record

    return made


def make_dataclass(name, rows, frozen=False, namespace=None):
    """A record of rows (name, type, field), with what else its class holds."""
    content = dict(namespace or {})
    for key, _, value in rows:
        content[key] = value
    return dataclass(*[row[0] for row in rows])(type(name, (), content))


def fields(record):
    """The fields of a record, or of its class."""
    return tuple(record.FIELDS.values())


def is_dataclass(record):
    """Whether something is a record."""
    return hasattr(record, "FIELDS")


def replace(record, **changes):
    """The same record with other values of some fields."""
    values = {name: getattr(record, name) for name in record.FIELDS}
    values.update(changes)
    return type(record)(**values)


def _init(self, *values, **named):
    positional = list(values)
    for name, entry in self.FIELDS.items():
        if positional:
            value = positional.pop(0)
        elif name in named:
            value = named.pop(name)
        elif entry.default is not MISSING:
            value = entry.default
        elif entry.default_factory is not MISSING:
            value = entry.default_factory()
        else:
            raise TypeError("no value for " + name)
        setattr(self, name, value)
    if positional or named:
        raise TypeError("values for no field: " + ", ".join(named))
    if hasattr(self, "__post_init__"):
        self.__post_init__()


def _values(self):
    return tuple([getattr(self, name) for name in self.FIELDS])


def _eq(self, other):
    return type(self) is type(other) and _values(self) == _values(other)


def _hash(self):
    return hash(_values(self))


def _repr(self):
    shown = ", ".join([name + "=" + repr(getattr(self, name)) for name in self.FIELDS])
    return type(self).__name__ + "(" + shown + ")"
