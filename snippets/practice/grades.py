"""The grades of the drills, and how many there are of each."""

from lpv.drill.drills import GRADES
from lpv_site.pages.drill_choices import ASKED
from lpv_site.pages.drill_page import of_grade
from lpv_site.text.table import table

rows = [
    (f"[**{ASKED[grade]}**]({grade}.md)", len(of_grade(grade)),
     f"{of_grade(grade)[0].row.number:02d} to {of_grade(grade)[-1].row.number:02d}")
    for grade in GRADES if of_grade(grade)
]
print(table(["grade", "drills", "numbers"], rows))
