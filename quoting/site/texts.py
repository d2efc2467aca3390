"""The texts of templates: marked with ``{% trans %}`` or ``_("...")``, said in the language that is spoken."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from jinja2 import Environment
from jinja2.ext import InternationalizationExtension

from quoting import languages


def _said(text: str) -> str:
    return languages.spoken().texts.gettext(text)


class Texts(InternationalizationExtension):
    """Jinja's own extension with our catalogs.  Line breaks and indentation within a text are one blank."""

    def __init__(self, environment: Environment) -> None:
        super().__init__(environment)
        environment.policies["ext.i18n.trimmed"] = True
        self._install_callables(
            _said, languages.ngettext, newstyle=True, pgettext=languages.pgettext, npgettext=languages.npgettext
        )
