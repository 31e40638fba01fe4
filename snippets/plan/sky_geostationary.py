"""How high a geostationary satellite stands over the demo sites, by how far east or west of them it is."""

from lpv.core.units import degrees_180
from lpv.sbas.constellation import geostationary
from lpv.sbas.service import site_of
from lpv.sbas.sky import sight
from lpv_site.department.data import examples
from lpv_site.text.table import table
from lpv_site.text.text import escape, quantity

AWAY_DEG = (0.0, 30.0, 60.0)
sites = {approach.identity.airport: site_of(approach.segment) for approach in examples()}


def elevation(site, away_deg: float) -> str:
    """Elevation of a satellite that far east of a place; below the horizon it cannot be received."""
    target = geostationary(degrees_180(site.longitude_deg + away_deg))
    elevation_deg = sight("", target, site).elevation_deg
    return quantity(elevation_deg, "°") if elevation_deg > 0.0 else "below"


rows = [
    (f"{escape(airport)}, {'N' if site.latitude_deg >= 0.0 else 'S'} {quantity(abs(site.latitude_deg), '°')}",
     *(elevation(site, away_deg) for away_deg in AWAY_DEG))
    for airport, site in sites.items()
]
print("Elevation of the satellite that sends the messages, by how far east or west of the airport it is:\n")
print(table(["airport", *(quantity(away_deg, "°") for away_deg in AWAY_DEG)], rows))
