"""Find-the-error drills: an approach set up as it should be, with mistakes planted in it."""
