"""Satellites, error budgets and protection levels: does the geometry support LPV?

Public: `constellation.baseline`, `sky.in_view`, `integrity.protection_levels`, `service.supports`,
`service.availability`.
"""
