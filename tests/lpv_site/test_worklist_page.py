"""The page of what is still to be filled."""

import io

import coded_records as coded
from demo import approaches as make_demo
from lpv.arinc.importer import Order, run
from lpv.fill.worklist import FILL, READ_AGAIN, Task
from lpv_site.pages.worklist_page import build_worklist_page, main


def test_worklist_by_field_and_approach():
    todo = [Task("zzaa-a", "ZZAA", "RNAV [x] *A*", "minima", READ_AGAIN, "path point", "LPV ABCD 264"),
             Task("zzaa-a", "ZZAA", "RNAV [x] *A*", "notes", FILL)]
    page = build_worklist_page(todo, 7, "../approaches/")
    assert "1 of 7 approaches are not finished: 2 values." in page
    assert "- Read again: lines of minima with their visibility &#40;" not in page
    assert "(path point changed, was LPV ABCD 264)." in page
    assert "- Fill: notes." in page
    assert "[Briefing](../approaches/zzaa-a.md)" in page
    assert "*A*" not in page
    assert "0 of 7 approaches are not finished: 0 values." in build_worklist_page([], 7)


def test_worklist_page_command(tmp_path, capsys):
    run(io.BytesIO(coded.as_file(coded.KHWD)), "cycle.txt", Order(tmp_path))
    assert main([str(tmp_path)]) == 0
    assert "### KHWD RNAV" in capsys.readouterr().out
    assert main([str(make_demo.FOLDER)]) == 0
    assert "approaches are not finished" in capsys.readouterr().out
    assert main([]) == 2
    (tmp_path / "bad.toml").write_text("x = 1\n")
    assert main([str(tmp_path)]) == 2
