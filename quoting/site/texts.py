"""The texts of templates: marked with ``{% trans %}`` or ``_("...")``, said in the language that is spoken."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from jinja2 import Environment
from jinja2.ext import InternationalizationExtension

from quoting import languages


class Texts(InternationalizationExtension):
    """Jinja's own extension with our catalogs.  Line breaks and indentation within a text are one blank."""

    def __init__(self, environment: Environment) -> None:
        super().__init__(environment)
        environment.policies["ext.i18n.trimmed"] = True
        self._install_callables(
            languages._, languages.ngettext, newstyle=True, pgettext=languages.pgettext, npgettext=languages.npgettext
        )
