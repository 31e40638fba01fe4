"""The approach record: identity, chart and database, as an approach file holds them.

Public: `record.Approach`, `record.read`, `record.read_all`, `record.read_text`, `provenance.unverified`.
"""
