"""How an aircraft moves: wind triangle, turns, descent and climb, slowing down.

Public: `kinematics.descent_rate_fpm`, `kinematics.wind_triangle`, `kinematics.flying_time_s`,
`energy.slowing_distance_nm`.
"""
