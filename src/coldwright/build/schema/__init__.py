"""The sections of a build file, as strict models: what may stand in it, its kind and its bounds."""
