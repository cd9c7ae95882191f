"""Tags past the readers' limit: a picture compared with every number that is known here.

A symbol under a stain cannot be corrected, but the tablet knows what all its tags look like. Where a symbol may
be (`spots`), its grid from the spectrum and the phases of its edges (`lattice`, `grid`), what each module shows
or whether it is covered (`modules`), which known tag that fits (`match`) and the chance that it was another one
(`chance`). Holds numpy and Pillow only; no reader, no disk, no records.
"""
