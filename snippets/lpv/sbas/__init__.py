"""Satellites, error budgets and protection levels: does the geometry support LPV?

Public: `constellation.baseline`, `masks.in_view`, `integrity.protection_levels`, `level.supports`,
`level.availability`.
"""
