"""What Hearthbook talks about: one home and its parts, valid once built."""
