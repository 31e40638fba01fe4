"""Building the site: what MkDocs calls, what is kept between builds, what the phone keeps."""
