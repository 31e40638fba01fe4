"""Strict reading and writing of TOML data files: schemas as records, and every fault at once.

Public: `schema` declares a field, `toml_reader` reads, `toml_writer.toml_text` writes, `json_form.to_json` hands a
record to another program.
"""
