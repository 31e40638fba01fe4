"""The final path in the vertical, the scales of its deviations, and what temperature does to it."""
