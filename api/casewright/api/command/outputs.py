"""A folder of papers as the command line writes it: its own files of an earlier run go, nobody else's are touched."""

import os
import re
from collections.abc import Mapping
from pathlib import Path

from casewright.api.command.inputs import RefusedError

OWN = re.compile(
    r"(job|plan)\.json|(parts|hardware|costs)\.csv|(cut-list|steps)\.txt|(booklet|labels)\.pdf|workbook\.xlsx|model\.glb"
    r"|(parts|outlines)\.dxf|(part|door|layout|template)s\.pdf|(elevation|section|wall|fixing|exploded)(-[0-9]+)?\.svg"
)
"""Names of files that `plan` and `demo` write."""

_SHOWN = 3


def write_folder(folder: Path, files: Mapping[str, bytes], *, force: bool = False) -> None:
    """Write files into a folder, made where it is not there; links in it are replaced, not followed.

    Raises `RefusedError` where the folder is a link, or holds what no earlier run wrote and `force` is not set.
    """
    if folder.is_symlink():
        raise RefusedError(f"{folder} is a link; --out names a folder itself")
    folder.mkdir(parents=True, exist_ok=True)
    there = sorted(folder.iterdir())
    others = [path.name for path in there if not OWN.fullmatch(path.name)]
    if others and not force:
        more = " …" if len(others) > _SHOWN else ""
        raise RefusedError(
            f"{folder} holds other files ({', '.join(others[:_SHOWN])}{more}); name another folder, or add --force"
        )
    for path in there:
        if OWN.fullmatch(path.name) and (path.is_symlink() or path.is_file()):
            path.unlink()
    for name, content in files.items():
        made = os.open(folder / name, os.O_WRONLY | os.O_CREAT | os.O_EXCL | getattr(os, "O_NOFOLLOW", 0), 0o666)
        with os.fdopen(made, "wb") as file:
            file.write(content)
