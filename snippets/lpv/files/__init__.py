"""Strict reading and writing of TOML data files: schemas as records, values, every fault at once."""
