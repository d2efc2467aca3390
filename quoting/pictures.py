"""What is in an image file, copies of it for the site, and areas painted as dots: the only file that knows Pillow.

A copy stands upright, is in sRGB, and holds nothing but its pixels: no place, no camera, no preview.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from io import BytesIO
from pathlib import Path

import PIL
from PIL import ExifTags, Image, ImageChops, ImageCms, ImageDraw, ImageOps, UnidentifiedImageError

# Pillow would warn of more pixels than we take; how many an image has is asked before one of them is decoded
Image.MAX_IMAGE_PIXELS = None

# What a file can hold, by the endings that its name may have
ENDINGS = {"JPEG": (".jpg", ".jpeg"), "PNG": (".png",), "WebP": (".webp",)}
FORMATS = ("JPEG", "PNG", "WEBP")  # no other decoder of Pillow ever sees a file
NAMES = {"JPEG": "JPEG", "MPO": "JPEG", "PNG": "PNG", "WEBP": "WebP"}  # MPO: a JPEG with a second one behind it
# Exif 2.3, Orientation (tag 0x0112): from 5 on the picture lies on its side
ON_ITS_SIDE = range(5, 9)
# (practice) what of a photo nobody misses, and half the bytes that the encoder's own best would take
QUALITY = 82
PILLOW = PIL.__version__  # another one may write other bytes


class NotAPictureError(ValueError):
    """A file holds no image that we read, or one that breaks off."""


@dataclass(frozen=True, slots=True)
class Look:
    """What the head of an image file says.  Width and height in pixels, as it stands upright."""

    kind: str  # a key of ENDINGS
    width: int
    height: int


@dataclass(frozen=True, slots=True)
class Copy:
    """A copy for the site."""

    ending: str  # ".jpg", or ".webp" where something of it is transparent
    width: int
    height: int
    content: bytes


@dataclass(frozen=True, slots=True)
class Area:
    """What is within rings, in pixels from the upper left corner; ``even``: but not what is within two of them."""

    rings: list[list[tuple[float, float]]]
    color: tuple[int, int, int]
    opacity: float
    even: bool


def look(source: Path | bytes) -> Look:
    """What the head of a file says; nothing is decoded.   Raises NotAPictureError, OSError where it cannot be read."""
    with _opened(source) as image:
        width, height = image.size
        if _orientation(image) in ON_ITS_SIDE:
            width, height = height, width
        return Look(NAMES[str(image.format)], width, height)


def copies(raw: bytes, widths: tuple[int, ...]) -> list[Copy]:
    """The picture in each of these widths, in pixels, none larger than it is.   Raises NotAPictureError."""
    whole = _decoded(raw, max(widths))
    return [_written(whole, width) for width in widths]


def height_at(width: int, about: Look) -> int:
    """The height of a copy in pixels.

    >>> height_at(480, Look("JPEG", 4000, 3000)), height_at(480, Look("PNG", 9000, 3))
    (360, 1)
    """
    return max(1, round(width * about.height / about.width))


def _opened(source: Path | bytes) -> Image.Image:
    try:
        return Image.open(BytesIO(source) if isinstance(source, bytes) else source, formats=FORMATS)
    except UnidentifiedImageError as error:
        raise NotAPictureError("is no JPEG, PNG or WebP") from error
    except OSError as error:
        if error.errno is not None:
            raise
        raise NotAPictureError(f"cannot be read as an image: {error}") from error
    except Exception as error:  # a decoder on anybody's bytes: whatever it says, the file is at fault
        raise NotAPictureError(f"cannot be read as an image: {error}") from error


def _orientation(image: Image.Image) -> int:
    try:
        return int(image.getexif().get(ExifTags.Base.Orientation, 1))
    except Exception:  # what stands there is no Exif, and the picture stands as it stands
        return 1


def _decoded(raw: bytes, widest: int) -> Image.Image:
    """The pixels, upright and in sRGB: RGB, or RGBA where something is transparent."""
    with _opened(raw) as image:
        on_its_side = _orientation(image) in ON_ITS_SIDE
        part = widest / (image.height if on_its_side else image.width)
        try:
            image.draft(image.mode, (int(image.width * part) + 1, int(image.height * part) + 1))
            image.load()
        except Exception as error:  # as above
            raise NotAPictureError(f"breaks off, or is damaged: {error}") from error
        try:
            upright = ImageOps.exif_transpose(image)
        except Exception:  # see _orientation
            upright = image.copy()
        try:
            return _in_srgb(upright)
        except (ValueError, OSError) as error:
            raise NotAPictureError(f"holds colors that cannot be shown: {error}") from error


def _in_srgb(image: Image.Image) -> Image.Image:
    profile = image.info.get("icc_profile")
    if image.mode.startswith("I"):  # 16 bits of gray
        image = image.convert("I").point(lambda value: value / 256).convert("L")
    alpha = image.convert("RGBA").getchannel("A") if image.has_transparency_data else None
    if image.mode not in ("L", "RGB", "CMYK"):
        image = image.convert("RGB")
    colors = _by_profile(image, profile) if profile else image.convert("RGB")
    if alpha is not None and alpha.getextrema() != (255, 255):
        colors.putalpha(alpha)
    return colors


def _by_profile(image: Image.Image, profile: bytes) -> Image.Image:
    """Colors as their profile means them; where it is none for this picture, as they stand."""
    try:
        source = ImageCms.ImageCmsProfile(BytesIO(profile))
        found = ImageCms.profileToProfile(image, source, ImageCms.createProfile("sRGB"), outputMode="RGB")
    except (ImageCms.PyCMSError, OSError, ValueError, TypeError):
        found = None
    return found if found is not None else image.convert("RGB")


def _written(whole: Image.Image, width: int) -> Copy:
    height = max(1, round(width * whole.height / whole.width))
    small = whole.resize((width, height), Image.Resampling.LANCZOS, reducing_gap=3.0)
    small.info.clear()  # a comment or a preview that was in the file would be written again
    out = BytesIO()
    if small.mode == "RGBA":
        small.save(out, "WEBP", quality=QUALITY, method=6)
        return Copy(".webp", width, height, out.getvalue())
    small.save(out, "JPEG", quality=QUALITY, optimize=True, progressive=True)
    return Copy(".jpg", width, height, out.getvalue())


# Each dot is the mean of so many by so many; so many colors are left, which nobody misses in a drawing
FINE = 3
COLORS = 128
# The same where colors run into each other: no palette of a file of this kind has more
SHADES = 256


def painted(areas: Iterable[Area], width: int, height: int, shaded: bool = False) -> bytes:
    """A PNG of areas over each other on white, so many pixels wide and high; the same bytes from the same Pillow.

    ``shaded``: colors run into each other, and no step between two of them is to be seen.
    """
    canvas = Image.new("RGB", (width * FINE, height * FINE), "white")
    for area in areas:
        _paint(canvas, area)
    out = BytesIO()
    count, way = (SHADES, Image.Quantize.MEDIANCUT) if shaded else (COLORS, Image.Quantize.FASTOCTREE)
    few = canvas.reduce(FINE).quantize(count, way, dither=Image.Dither.NONE)
    few.save(out, "PNG", compress_level=6)
    return out.getvalue()


def _paint(canvas: Image.Image, area: Area) -> None:
    rings = [[(x * FINE, y * FINE) for x, y in ring] for ring in area.rings]
    if area.opacity == 1 and not area.even:
        draw = ImageDraw.Draw(canvas)
        for ring in rings:
            draw.polygon(ring, fill=area.color)
        return
    xs, ys = [x for ring in rings for x, _ in ring], [y for ring in rings for _, y in ring]
    left, top = max(0, int(min(xs))), max(0, int(min(ys)))
    right, bottom = min(canvas.width, int(max(xs)) + 2), min(canvas.height, int(max(ys)) + 2)
    if right > left and bottom > top:
        canvas.paste(area.color, (left, top), _mask(rings, area, (left, top, right, bottom)))


def _mask(rings: list[list[tuple[float, float]]], area: Area, box: tuple[int, int, int, int]) -> Image.Image:
    """How much of each dot in a box is painted over."""
    mask = Image.new("L", (box[2] - box[0], box[3] - box[1]))
    for ring in rings:
        moved = [(x - box[0], y - box[1]) for x, y in ring]
        if area.even:
            one = Image.new("L", mask.size)
            ImageDraw.Draw(one).polygon(moved, fill=round(255 * area.opacity))
            mask = ImageChops.difference(mask, one)
        else:
            ImageDraw.Draw(mask).polygon(moved, fill=round(255 * area.opacity))
    return mask
