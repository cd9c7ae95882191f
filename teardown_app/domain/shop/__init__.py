"""The shop over all its jobs: people and rights, foundings, tablets that count, labels, numbers that were issued."""
