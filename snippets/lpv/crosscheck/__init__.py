"""Chart against database against computation, and one data cycle against the next.

Public: `check.crosscheck` for one approach, `changes.compare` for two editions of it, `cycle.compare_folders` for two
sets; `limits` says where a difference begins to matter, and why.
"""
