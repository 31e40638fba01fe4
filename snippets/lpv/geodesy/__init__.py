"""Distances, courses and positions on the WGS-84 ellipsoid, and the magnetic model.

Public: `earth` for the geodesic, `local_frame.Frame`, `magnetic.model_variation_deg`, `geoid.geoid_height_m`.
"""
