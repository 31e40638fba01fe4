"""What the pages about notices show, worked out by hand from the texts."""

from lpv.notices.kinds import KINDS
from plan.notice_effect import show as effect
from plan.notice_kinds import show as kinds
from plan.notice_reader import show as reader
from shown import plain, row


def test_each_notice_on_fine_day():
    # The light demo jet: SBAS, no barometric path.  Chart: LPV, LNAV/VNAV, LNAV, circling.
    assert row(effect(), "no notice") == ["no notice", "LPV", ""]
    assert row(effect(), "SBAS may not be available")[1:] == ["LNAV", "LPVLNAV/VNAV"]
    assert row(effect(), "SBAS not available")[1:] == ["LNAV", ""]
    assert row(effect(), "GPS interference test")[1:] == ["none", "LPVLNAV/VNAVLNAVcircling"]
    assert row(effect(), "chart marked: no site notices")[1:] == ["LNAV", "LPVLNAV/VNAV"]
    assert row(effect(), "not understood")[1:] == ["none", "LPVLNAV/VNAVLNAVcircling"]


def test_every_kind_has_block():
    text = kinds().markdown
    assert len([line for line in text.splitlines() if line.startswith("**")]) == len(KINDS)
    assert text.count("Aeronautical Information Manual") == len([kind for kind in KINDS if kind.place])


def test_reader_examples():
    blocks = [plain(block) for block in reader().markdown.split('<div class="hb-row">')[1:]]
    ends = (
        "effect LPV not available", "effect LNAV figures changed", "effect it does not hold at this time",
        "effect every satellite line to be known", "effect LPV, LP, LNAV/VNAV by SBAS in doubt",
        "words not understood: MAY, NOT, BE", "words not understood: NOBODY, LOOKS", "effect nothing",
    )
    for block, end in zip(blocks, ends, strict=True):
        assert end in block
