"""Numbers, pure: what was read is turned into what is judged. numpy only; nothing here knows a part or a job."""
