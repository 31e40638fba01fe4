"""The final approach segment: data block, path point record, identifiers, geometry on the ellipsoid.

Public: `block.FinalApproachSegment`, `block.encode`, `codec.fields`, `remainder.remainder_hex`, `segment` for the
geometry, `path_point_reader.PathPoint`.
"""
