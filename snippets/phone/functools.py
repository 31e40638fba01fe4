"""Values that are worked out once."""


def cache(function):
    """Keeps what a function gave for each set of arguments."""
    kept = {}

    def cached(*arguments):
        if arguments not in kept:
            kept[arguments] = function(*arguments)
        return kept[arguments]

    return cached


def lru_cache(maxsize=None):
    """As `cache`; so little is asked on the phone that nothing is thrown away."""
    return cache


def cached_property(function):
    """A property that is worked out once for each object."""
    name = "_kept_" + function.__name__

    def computed_once(self):
        if not hasattr(self, name):
            setattr(self, name, function(self))
        return getattr(self, name)

    return property(computed_once)
