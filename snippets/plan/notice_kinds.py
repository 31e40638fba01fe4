"""Every kind of notice: an example of its form, what it means, what to plan, whether the controller tells it."""

from lpv.core.text import capitalized
from lpv.notices.kinds import KINDS, SOURCE, Kind
from lpv_site.checks.check_table import source_text
from lpv_site.pages.notice_pages import name_words, published_forms
from lpv_site.text.shown import Shown
from lpv_site.text.text import escape, verbatim


def show() -> Shown:
    """One block a kind; those with a published form first."""
    published = [kind for kind in KINDS if kind.place]
    return Shown("\n".join(_block(kind) for kind in [*published, *(kind for kind in KINDS if not kind.place)]))


def _block(kind: Kind) -> str:
    name, form = name_words(kind), published_forms().get(kind)
    lines = [f"**{escape(capitalized(name))}**"]
    lines += [f"<code>{verbatim(form)}</code>"] if form else []
    lines += [f"{escape(kind.means)} **{escape(kind.plan)}** {escape(kind.told)}".rstrip()]
    lines += [f"{escape(source_text(SOURCE))}, {escape(kind.place)}."] if kind.place else []
    return "\n\n".join(lines) + "\n"
