"""Records that are plain classes, changed for a test."""

import copy


def changed(record, **values):
    """A copy of a record with other values."""
    found = copy.copy(record)
    for key, value in values.items():
        assert hasattr(record, key), key
        setattr(found, key, value)
    return found
