"""Checks a published page: balanced tags, nothing loaded from anywhere, texts for those who listen."""
import html.parser
import sys

EMPTY = {"meta", "img", "br", "hr", "line", "rect", "circle", "polygon"}
LOADING = {"src", "href", "srcset", "data", "poster", "action", "formaction", "background", "xlink:href"}


class Page(html.parser.HTMLParser):
    def __init__(self):
        super().__init__(convert_charrefs=True)
        self.open = []
        self.text = []
        self.figures = 0

    def handle_startendtag(self, tag, attrs):
        self.check(tag, attrs)

    def handle_starttag(self, tag, attrs):
        self.check(tag, attrs)
        if tag not in EMPTY:
            self.open.append(tag)

    def handle_endtag(self, tag):
        assert self.open and self.open[-1] == tag, (tag, self.open[-3:], self.getpos())
        self.open.pop()

    def handle_data(self, data):
        if self.open and self.open[-1] not in ("style", "script"):
            self.text.append(data)

    def check(self, tag, attrs):
        assert tag not in ("script", "iframe", "object", "embed", "link", "base", "form"), tag
        names = dict(attrs)
        for name, value in attrs:
            assert not name.startswith("on"), name
            if name in LOADING:
                is_inside = value.startswith("data:image/png;base64,") and tag == "img"
                is_beside = tag == "a" and ":" not in value and not value.startswith("/")
                assert is_inside or is_beside, (tag, name, value[:60])
        if tag == "img":
            assert names.get("alt"), "an image without a text"
        if tag == "svg":
            self.figures += 1
            assert names.get("role") == "img" and names.get("aria-labelledby")


source = open(sys.argv[1], encoding="utf-8").read()
page = Page()
page.feed(source)
page.close()
assert not page.open, page.open
style = source.split("<style>")[1].split("</style>")[0]
assert "url(" not in style and "@import" not in style
assert "prefers-color-scheme:dark" in style and "@media print" in style
assert page.figures > 0
print("".join(page.text))
