"""The standard atmosphere, airspeeds, and what temperature does to an altimeter.

Public: `altimetry.true_height_ft`, `altimetry.indicated_height_ft`, `altimetry.segment_addition_ft`,
`altimetry.minimum_addition_ft`, `atmosphere.true_airspeed_kt`, `atmosphere.isa_temperature_c`.
"""
