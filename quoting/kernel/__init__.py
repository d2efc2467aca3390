"""The engine's arithmetic and rules, in the small subset of Python that also runs in the visitor's page.

What the subset is stands in DEVELOPERS.md; a test refuses what is outside it.  ``records`` only describes the
dictionaries that go in and out and never reaches the page.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later
