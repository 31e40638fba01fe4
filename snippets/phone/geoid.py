"""In the place of `lpv.geodesy.geoid`: the phone does not have the table of the geoid, 540 kB."""

from lpv.core.errors import NotOnThisDevice


def geoid_height_m(latitude_deg, longitude_deg):
    """Raises NotOnThisDevice."""
    raise NotOnThisDevice("This device has no table of the geoid.")
