"""Meeting the final course and the glidepath: geometry, turns, overshoot, limits for vectors."""
