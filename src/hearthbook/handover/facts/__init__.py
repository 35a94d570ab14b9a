"""This home's facts in the householder's words, for the texts of the pack."""
