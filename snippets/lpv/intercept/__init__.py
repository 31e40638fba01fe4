"""Meeting the final course and the glidepath: geometry, turns, overshoot, limits of vectors.

Public: `course.turn_onto_course`, `course.ready_to_arm`, `glidepath.regain_angle_deg`, `vectors`.
"""
