"""Tests of profile families."""
