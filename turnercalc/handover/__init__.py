"""Results into something a person or a script holds. Nothing here computes."""
