"""The screens, one file each: what is shown of the records, and what a touch or a scan does there. No Kivy."""
