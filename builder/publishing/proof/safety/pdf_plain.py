"""Whether a PDF holds nothing that programs show, print or leave out each in its own way.

What a page looks like is drawn by one program only; so whatever may look otherwise in another is
not let pass. The lists hold what finished cards and packs have, and what is harmless beside it
(ISO 32000-2); all else counts as strange.
"""

from collections.abc import Iterator

import pikepdf

_ROOT = frozenset(
    {"/Type", "/Pages", "/Lang", "/StructTreeRoot", "/Metadata", "/Outlines", "/MarkInfo"}
    | {"/ViewerPreferences", "/Names", "/Dests", "/Version", "/Extensions", "/PageLabels"}
    | {"/PageLayout", "/OutputIntents", "/OCProperties"}
)
"""No actions, no forms to fill in, no attachments that are shown instead (7.7.2)."""
_NAMES = frozenset({"/Dests"})
_PREFERENCES = frozenset({"/DisplayDocTitle", "/Direction", "/PrintScaling", "/Duplex"})
"""None that has another part of a page shown or printed (12.2)."""
_PAGE = frozenset(
    {"/Type", "/Parent", "/Resources", "/Contents", "/Annots", "/StructParents", "/Tabs"}
    | {"/MediaBox", "/CropBox", "/TrimBox", "/BleedBox", "/ArtBox", "/Rotate", "/UserUnit"}
    | {"/Group", "/Metadata", "/LastModified"}
)
_STATE = frozenset(
    {"/Type", "/ca", "/CA", "/BM", "/SMask", "/LW", "/LC", "/LJ", "/ML", "/D", "/RI", "/FL", "/SA"}
)
"""No overprinting, no changed inks, no groups that knock others out (8.4.5)."""
_FORM = frozenset(
    {"/Type", "/Subtype", "/FormType", "/BBox", "/Matrix", "/Resources", "/Group", "/OC", "/Name"}
    | {"/StructParent", "/StructParents", "/Metadata", "/Length", "/Filter", "/DecodeParms"}
)
"""No pages of other files (8.10)."""
_PICTURE = frozenset(
    {"/Type", "/Subtype", "/Width", "/Height", "/ColorSpace", "/BitsPerComponent", "/ImageMask"}
    | {"/Mask", "/SMask", "/SMaskInData", "/Decode", "/Interpolate", "/Intent", "/Matte", "/Name"}
    | {"/StructParent", "/OC", "/Metadata", "/Length", "/Filter", "/DecodeParms"}
)
"""No other pictures for print (8.9)."""
_KEYS = {"/Form": _FORM, "/Image": _PICTURE}
_COLOURS = frozenset({"/DeviceRGB", "/DeviceGray", "/DeviceCMYK", "/ICCBased", "/Lab", "/Pattern"})
"""Neither inks that a printer may have or not, nor colours that stand for others (8.6)."""
_LAYERS = frozenset({"/OCGs", "/D"})
_USES = frozenset({"/View", "/Print", "/Export", "/CreatorInfo"})
"""A layer that depends on how large it is shown, or to whom, is another one to each (8.11.4)."""
_QUARTER = 90
_DEEPEST = 40
"""Knots of pages within others that are looked into. Ours."""


def is_plain_document(pdf: pikepdf.Pdf) -> bool:
    """Tell whether the file as a whole, its pages aside, is shown alike everywhere."""
    root = pdf.Root
    if pdf.is_encrypted or not _has_only(root, _ROOT):
        return False
    parts = ((root.get("/Names"), _NAMES), (root.get("/ViewerPreferences"), _PREFERENCES))
    return all(_has_only(part, known) for part, known in parts) and _has_plain_layers(root)


def is_plain_page(page: pikepdf.Page) -> bool:
    """Tell whether a page, with all that it draws, is shown alike everywhere."""
    if not _has_only(page.obj, _PAGE) or _find_turn(page.obj) % _QUARTER:
        return False
    return all(_is_plain(holder) for holder in _list_holders(page.obj))


def _find_turn(page: pikepdf.Object) -> float:
    """Return by how many degrees a page is turned, or what it stands in is."""
    holder: object = page
    for _ in range(_DEEPEST):
        turn = _find(holder, "/Rotate")
        if turn is not None:
            return float(str(turn))
        holder = _find(holder, "/Parent")
    return 0.0


def _has_only(part: object, known: frozenset[str]) -> bool:
    return not isinstance(part, pikepdf.Dictionary | pikepdf.Stream) or part.keys() <= known


def _has_plain_layers(root: pikepdf.Object) -> bool:
    layers = root.get("/OCProperties")
    if not isinstance(layers, pikepdf.Dictionary):
        return layers is None
    usual = _find(layers, "/D")
    every = _list_parts(_find(layers, "/OCGs"))
    asked = (_find(each, "/Category") for each in _list_parts(_find(usual, "/AS")))
    kinds = {str(kind) for kind in _flatten(asked)}
    return (
        _has_only(layers, _LAYERS)
        and kinds <= _USES
        and all(_has_only(_find(layer, "/Usage"), _USES) for layer in every)
    )


def _flatten(arrays: Iterator[object]) -> Iterator[object]:
    for array in arrays:
        if isinstance(array, pikepdf.Array):
            yield from array


def _list_holders(page: pikepdf.Object) -> Iterator[pikepdf.Object]:
    """Yield a page and every form, picture and pattern on it, each once."""
    known: set[tuple[int, int]] = set()
    waiting = [page]
    while waiting:
        holder = waiting.pop()
        if holder.is_indirect:
            if holder.objgen in known:
                continue
            known.add(holder.objgen)
        yield holder
        resources = _find(holder, "/Resources")
        for kind in ("/XObject", "/Pattern"):
            waiting += _list_parts(_find(resources, kind))
        masks = (_find(state, "/SMask") for state in _list_parts(_find(resources, "/ExtGState")))
        waiting += [form for mask in masks for form in _list_parts(mask)]


def _is_plain(holder: pikepdf.Object) -> bool:
    """Tell whether something that is drawn has a known form, states and colours."""
    if isinstance(holder, pikepdf.Stream) and "/PatternType" not in holder:
        known = _KEYS.get(str(holder.get("/Subtype")))
        if known is None or not _has_only(holder, known):
            return False
    group = _find(holder, "/Group")
    if isinstance(group, pikepdf.Dictionary) and group.get("/K"):
        return False
    resources = _find(holder, "/Resources")
    states = _list_parts(_find(resources, "/ExtGState"))
    return all(_has_only(state, _STATE) for state in states) and _has_plain_colours(resources)


def _has_plain_colours(resources: object) -> bool:
    colours = _find(resources, "/ColorSpace")
    if not isinstance(colours, pikepdf.Dictionary):
        return True
    if any(name.startswith("/Default") for name in colours.keys()):  # noqa: SIM118  # not a dict
        return False
    return all(_name_space(space) in _COLOURS for space in colours.values())


def _name_space(space: object) -> str:
    if isinstance(space, pikepdf.Array):
        return str(space[0]) if len(space) else ""
    return str(space)


def _list_parts(part: object) -> list[pikepdf.Object]:
    """Return what is itself a dictionary or a stream in one or in an array."""
    if isinstance(part, pikepdf.Dictionary):
        values = list(part.values())
    else:
        values = list(part) if isinstance(part, pikepdf.Array) else []
    return [each for each in values if isinstance(each, pikepdf.Dictionary | pikepdf.Stream)]


def _find(part: object, key: str) -> object:
    return part.get(key) if isinstance(part, pikepdf.Dictionary | pikepdf.Stream) else None
