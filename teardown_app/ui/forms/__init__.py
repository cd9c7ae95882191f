"""Forms: each asks one thing after the other and then does one act. One file for each bench."""
