"""Reads pages of HTML back: tables by their captions, headings, terms with what stands beside them, and drawings."""

from __future__ import annotations

from html.parser import HTMLParser

_EMPTY = frozenset({"meta", "link", "br", "img", "input", "hr", "wbr"})


class ReadPage(HTMLParser):
    """What a page says. Texts come with single blanks.

    ``tables`` holds the rows of cells under each caption, their heads first, and ``figures`` the values of the ``data``
    elements beside them; ``terms`` the words of description lists; ``elements`` every element's name and attributes.
    """

    def __init__(self, html: str) -> None:
        super().__init__()
        self.elements: list[tuple[str, dict[str, str]]] = []
        self.headings: list[tuple[int, str]] = []
        self.tables: dict[str, list[list[str]]] = {}
        self.figures: dict[str, list[float]] = {}
        self.terms: dict[str, str] = {}
        self.places: dict[str, list[float]] = {}
        self.unclosed: list[str] = []
        self._texts: list[list[str]] = []
        self._rows: list[list[str]] = []
        self._values: list[float] = []
        self._caption = self._term = ""
        self._said: list[str] = []
        self.feed(html)
        self.close()

    @property
    def text(self) -> str:
        """All that is to be read, but for the style."""
        return " ".join(" ".join(self._said).split())

    def texts_of(self, name: str, class_: str) -> list[dict[str, str]]:
        """The attributes of the elements of that name and class."""
        return [found for tag, found in self.elements if tag == name and class_ in found.get("class", "").split()]

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        given = {name: value or "" for name, value in attrs}
        self.elements.append((tag, given))
        if tag in _EMPTY:
            return
        self.unclosed.append(tag)
        self._texts.append([])
        if tag == "table":
            self._rows, self._values, self._caption = [], [], ""
        elif tag == "tr":
            self._rows.append([])
        elif tag == "data":
            self._values.append(float(given["value"]))
        elif tag == "p":
            self._values = []

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.elements.append((tag, {name: value or "" for name, value in attrs}))

    def handle_data(self, data: str) -> None:
        for text in self._texts:
            text.append(data)
        if "style" not in self.unclosed:
            self._said.append(data)

    def handle_endtag(self, tag: str) -> None:
        assert self.unclosed, f"{tag} ends that did not begin"
        assert self.unclosed[-1] == tag, f"{tag} ends within {self.unclosed[-1]}"
        self.unclosed.pop()
        text = " ".join("".join(self._texts.pop()).split())
        if tag in ("h1", "h2", "h3", "h4", "h5", "h6"):
            self.headings.append((int(tag[1]), text))
        elif tag == "caption":
            self._caption = text
        elif tag in ("td", "th"):
            self._rows[-1].append(text)
        elif tag == "table":
            self.tables[self._caption], self.figures[self._caption] = self._rows, self._values
        elif tag == "dt":
            self._term = text
        elif tag == "dd":
            self.terms.setdefault(self._term, text)
        elif tag == "p" and self._values:
            self.places[text.split(":")[0]] = self._values


def rows(page: ReadPage, caption: str) -> list[dict[str, str]]:
    """The rows of a table under its heads; for rows that are shorter (a cell spans several) the cells from the left."""
    heads, *others = page.tables[caption]
    return [dict(zip(heads, row, strict=False)) for row in others]
