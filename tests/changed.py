"""Records that are plain classes, changed for a test."""

import copy


def changed(record, **values):
    """A copy of a record with other values."""
    copied = copy.copy(record)
    for key, value in values.items():
        assert hasattr(record, key), key
        setattr(copied, key, value)
    return copied
