"""The words of a page of HTML, in their order and with their language."""

from builder.publishing.proof.structure.source import Passage, read_source

HTML = (
    '<html lang="en-GB"><head><title> A card </title><style>p {}</style></head><body>'
    "<div data-running><p>Page</p><p>Caution 1</p></div><h1>A card</h1>"
    '<p>Breathe <b>in</b>, <span lang="es">adentro</span>.</p><svg><title>no</title></svg></body>'
)


def test_words_come_in_order_with_their_language() -> None:
    source = read_source(HTML)
    assert (source.language, source.title, source.languages) == ("en-GB", "A card", ("es",))
    assert source.letters == "acardbreatheinadentro"
    assert source.passages[-1] == Passage("adentro", "es")


def test_what_is_repeated_stands_apart_and_counts_once_where_it_is_said_nowhere_else() -> None:
    source = read_source(HTML.replace("<h1>A card", "<h1>My page"))
    assert [passage.letters for passage in source.running] == ["page", "caution1"]
    assert [passage.letters for passage in source.list_unsaid()] == ["caution1"]
