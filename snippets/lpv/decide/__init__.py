"""The decisions on final: which minimum, how much cold, what can be seen, stable or not, the missed approach.

Public: `minima.verdicts` and `minimum.minimum_of_row` for the minimum, `cold.cold` for the additions,
`final_path.altimeter_at_pfaf_ft` for the reading at the FAF, `stabilised.evaluate` for a gate,
`visual.lights_in_sight`, `missed.height_loss_ft`.
"""
