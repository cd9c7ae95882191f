"""What somebody answers for by name: narrowings to be accepted, releases, signatures, whether the job is closed."""
