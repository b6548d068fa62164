"""Records to text for people: every function returns a string and prints nothing."""
