"""fitwright: a bench book that computes, for people who build engines."""

__version__ = "0.1.0"
