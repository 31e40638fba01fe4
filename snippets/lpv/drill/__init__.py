"""Drills: set-ups with mistakes planted in them, numbers to work out, approaches that run until something is wrong.

Public: `drills.read_all`, `rows.MISTAKES`, `numbers.KINDS`, `sequence.make`, `planted.Planted`, `case.Case`.
"""
