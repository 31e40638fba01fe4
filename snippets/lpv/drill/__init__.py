"""Find-the-error drills: an approach set up correctly, with mistakes planted in it.

Public: `drills.read_all`, `drills.MISTAKES`, `planted.Planted`, `case.Case`.
"""
