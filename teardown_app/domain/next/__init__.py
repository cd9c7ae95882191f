"""What can go in, what can come off, what is closed over, how far a job is: lists worked out from the state."""
