"""What is on disk: records as written, attachments, the index for lists, the tablet's own identity.

Turns bytes into `Record` values and back, and loses nothing that it has said is recorded. What a
record means is decided in the domain; no kind of record is known by name here. The format is
`docs/formats/journal-files.md`. Only this room writes below the data folder; all writes go
through `disk.py`.
"""
