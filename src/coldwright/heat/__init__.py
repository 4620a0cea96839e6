"""Heat transfer: one idea a file, each correlation a pure function over arrays."""
