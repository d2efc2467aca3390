"""Frames and lenses in, verdicts, prices and pages out: the engine and the site of a small optician's shop."""
# SPDX-License-Identifier: AGPL-3.0-or-later
