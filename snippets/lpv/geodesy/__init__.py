"""Distances, courses and positions on the WGS-84 ellipsoid, and the magnetic model."""
