"""Pages that MkDocs need not turn into HTML again: a worker did it where the page was made."""

from typing import Any

from mkdocs.structure.files import File
from mkdocs.structure.pages import Page
from mkdocs.structure.toc import get_toc

from lpv_site.text.fold import Html


class MadePage(Page):
    """A page of whose Markdown the HTML is known; should a hook change the Markdown, it is turned into HTML anew."""

    def __init__(self, file: File, config: Any, html: Html) -> None:
        super().__init__(None, file, config)
        self._html = html

    def read_source(self, config: Any) -> None:
        super().read_source(config)
        self._as_made = self.markdown

    def render(self, config: Any, files: Any) -> None:
        if self.markdown != self._as_made:
            super().render(config, files)
            return
        self.content, self.toc = self._html.searched, get_toc(self._html.toc)  # type: ignore[arg-type]
        self.present_anchor_ids, self.links_to_anchors = set(self._html.anchors), {}

    def searched(self) -> None:
        """Search has read what it may read: now all of the page, for the template."""
        if self.content == self._html.searched:
            self.content = self._html.content


def is_made(page: Page) -> bool:
    """Whether a page came to MkDocs with its HTML."""
    return isinstance(page, MadePage)
