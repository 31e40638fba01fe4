"""The final approach segment: data block, path point record, identifiers, geometry on the ellipsoid."""
