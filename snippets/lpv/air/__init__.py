"""The standard atmosphere, airspeeds, and what temperature does to an altimeter."""
