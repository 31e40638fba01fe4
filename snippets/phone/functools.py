"""Values that are worked out once."""


def cache(function):  # type: ignore[no-untyped-def]
    """Keeps what a function gave for each set of arguments."""
    kept = {}

    def found(*arguments):  # type: ignore[no-untyped-def]
        if arguments not in kept:
            kept[arguments] = function(*arguments)
        return kept[arguments]

    return found


def lru_cache(maxsize=None):  # type: ignore[no-untyped-def]
    """As `cache`; so little is asked on the phone that nothing is thrown away."""
    return cache


def cached_property(function):  # type: ignore[no-untyped-def]
    """A property that is worked out once for each object."""
    name = "_kept_" + function.__name__

    def found(self):  # type: ignore[no-untyped-def]
        if not hasattr(self, name):
            setattr(self, name, function(self))
        return getattr(self, name)

    return property(found)
