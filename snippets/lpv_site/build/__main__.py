"""`python -m lpv_site.build`: builds the site; see `lpv_site.build.build`."""

from lpv_site.build.build import main

raise SystemExit(main())
