"""The aircraft record: category, speeds, equipment, and the rules of a type's modes.

Public: `record.Aircraft`, `record.read_all`, `record.read_text`.
"""
