"""Reading ARINC 424 records, and making approach files from them."""
