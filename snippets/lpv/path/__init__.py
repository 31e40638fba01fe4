"""The final path in the vertical, the scales of its deviations, and what temperature does to it.

Public: `profile.straight_path_height_ft` and `profile.barometric_path_height_ft`, `scale.lpv_full_scale_ft`,
`deviation.final_full_scale_ft`, `temperature.indicated_on_path_ft`.
"""
