"""Light through the lenses of a shop: which curves lie in a lens, and what a tint makes of it."""
# SPDX-License-Identifier: AGPL-3.0-or-later
