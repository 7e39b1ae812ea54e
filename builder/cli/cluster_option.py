"""The option ``--cluster``: workers on other machines."""

from typing import Annotated

import typer

ClusterOption = Annotated[
    str,
    typer.Option(
        "--cluster",
        metavar="ADDRESS",
        help="Print on the workers of a Dask cluster, such as tls://host:8786. What is printed "
        "goes to all of its machines.",
    ),
]
