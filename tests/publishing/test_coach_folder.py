"""What is told of the files of a class."""

from pathlib import Path

from builder.publishing.coach_folder import ClassFiles, say_class_files


def test_a_card_without_figures_is_told_with_the_way_out() -> None:
    paths = (Path("card.pdf"), Path("screen.html"))
    whole = "For the coach alone: card.pdf, screen.html, read back and complete."
    assert say_class_files(ClassFiles(paths, has_figures=True)) == whole
    said = say_class_files(ClassFiles(paths, has_figures=False))
    assert said.startswith(f"{whole} The class is too large for figures on its card")
    assert "fewer blocks or fewer people" in said
