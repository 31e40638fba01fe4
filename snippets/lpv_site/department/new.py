"""A blank data file of any kind that a department's folder holds: as `lpv new`, with the kinds of the site.

    python -m lpv_site.department.new department --out FOLDER
"""

import sys

from lpv.command import new
from lpv.command.runner import run
from lpv_site.department.json_schemas import RECORDS

if __name__ == "__main__":
    sys.exit(run(lambda arguments: new.main(arguments, RECORDS), sys.argv[1:]))
