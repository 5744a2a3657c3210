"""Tests of fitwright."""
