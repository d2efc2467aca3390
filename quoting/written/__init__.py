"""The meaning of written values: the field decides the type, from the text as it stands in the file."""
# SPDX-License-Identifier: AGPL-3.0-or-later
