"""`bendgen machine`: look after the folder that describes a bender. One file for each sub-command."""
