"""Fast-time simulation of an approach, flown by a type's modes."""
