"""Satellites, error budgets and protection levels: will the service be there?"""
