"""The mathematics and the data model of SBAS (LPV) approaches.

Nothing in this package prints at import, draws, or knows the site.
"""
