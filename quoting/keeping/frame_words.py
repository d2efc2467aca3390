"""What stands in the columns of English, German, French, Spanish and Italian tables of frames, and our words for it."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from collections.abc import Mapping

from quoting.catalog.model import FAMILIES, MOUNTINGS
from quoting.catalog.read_frames import STOCKS, VERSIONS

CHOICES = {"family": FAMILIES, "mounting": MOUNTINGS, "version": VERSIONS, "stock": STOCKS}

# All lists: how makers write (practice).  A full rim is of the material that stands beside it
FULL_RIM = "full rim, full, vollrand, cerclée, cerclé, aro completo, cerchiato, cerchiata"
PLASTICS = (
    "acetate, plastic, nylon, polyamide, propionate, horn, wood, acetat, kunststoff, polyamid, holz, acétate, "
    "plastique, corne, bois, acetato, plástico, cuerno, madera, plastica, corno, legno"
)
METALS = (
    "metal, titanium, beta titanium, stainless steel, steel, aluminum, aluminium, metall, titan, beta titan, "
    "edelstahl, stahl, métal, titane, acier, titanio, acero, metallo, acciaio, alluminio"
)
WORDS: Mapping[str, Mapping[str, str]] = {
    "family": {
        "round": "circle, circular, rund, rond, ronde, redondo, redonda, rotondo, rotonda",
        "oval": "ovale, ovalado, ovalada",
        "panto": "pantos",
        "rectangle": "rectangular, rechteck, rechteckig, rectangulaire, rettangolare",
        "square": "quadrat, quadratisch, carré, carrée, cuadrado, cuadrada, quadrato, quadrata",
        "pilot": "aviator, pilote, aviateur, piloto, aviador, pilota",
        "cat-eye": "cat eye, cateye, butterfly, katzenauge, œil de chat, ojo de gato, occhio di gatto",
        "trapezoid": "trapeze, trapezoidal, trapez, trapezförmig, trapèze, trapecio, trapezio",
    },
    "mounting": {
        "full-rim-plastic": "full rim plastic, full plastic, plastic, kunststoff, vollrand kunststoff",
        "full-rim-metal": "full rim metal, full metal, metal, metall, vollrand metall",
        "semi-rimless": "semi rimless, half rim, half rimless, supra, halbrand, nylor, demi cerclée, semi al aire",
        "drilled": "rimless, drill mount, three piece, 3 piece, randlos, percée, percé, al aire, glasant",
    },
    "version": {
        "optical": "rx, clear, ophthalmic, korrektion, korrektur, optisch, optique, vue, óptica, graduada, vista",
        "sun": "sunglass, sunglasses, plano sun, sonne, sonnenbrille, solaire, sol, sole",
        "sun-only": "only sun",
    },
    "stock": {
        "in-stock": "in stock, yes, available, auf lager, lagernd, lieferbar, ja, en stock, oui, disponible, sí, "
        "disponibile, sì",
        "to-order": "to order, on order, auf bestellung, bestellware, sur commande, por encargo, su ordinazione",
        "sold-out": "sold out, out of stock, no, discontinued, ausverkauft, nicht lieferbar, nein, épuisé, non, "
        "agotado, esaurito",
    },
}
