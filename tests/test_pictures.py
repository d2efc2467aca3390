"""Copies of photos: upright, in sRGB, of their pixels alone; whatever bytes come, a copy or a plain refusal."""

import random
import struct
import zlib
from io import BytesIO

import pytest
from PIL import Image

from quoting.pictures import Look, NotAPictureError, copies, look

RED, GREEN, BLUE, GRAY = (200, 30, 30), (30, 170, 40), (30, 40, 190), (128, 128, 128)


def saved(image, kind="JPEG", **more):
    out = BytesIO()
    image.save(out, kind, **more)
    return out.getvalue()


def corners(width=96, height=48):
    """Red in the upper left corner, green in the upper right, blue in the lower left, gray in the lower right."""
    image = Image.new("RGB", (width, height))
    for at, color in enumerate((RED, GREEN, BLUE, GRAY)):
        box = (at % 2 * width // 2, at // 2 * height // 2, (at % 2 + 1) * width // 2, (at // 2 + 1) * height // 2)
        image.paste(color, box)
    return image


def opened(copy):
    return Image.open(BytesIO(copy.content))


def nearest(pixel):
    """Which of the colors a pixel is, whatever the compression did to it."""
    return min((RED, GREEN, BLUE, GRAY), key=lambda one: sum((a - b) ** 2 for a, b in zip(one, pixel, strict=False)))


# Exif 2.3, tag 0x0112 (from memory): where the first row and the first column of what is stored belong, and so which
# corners of the upright picture show the stored upper left one and upper right one
ORIENTATIONS = {
    1: ("upper left", "upper right"),
    2: ("upper right", "upper left"),
    3: ("lower right", "lower left"),
    4: ("lower left", "lower right"),
    5: ("upper left", "lower left"),
    6: ("upper right", "lower right"),
    7: ("lower right", "upper right"),
    8: ("lower left", "upper left"),
}


@pytest.mark.parametrize("kind", ["JPEG", "PNG", "WEBP"])
@pytest.mark.parametrize("orientation", ORIENTATIONS)
def test_a_picture_stands_upright_as_its_camera_meant_it(kind, orientation):
    exif = Image.Exif()
    exif[0x0112] = orientation
    raw = saved(corners(), kind, exif=exif)
    wide = orientation < 5
    assert (look(raw).width, look(raw).height) == ((96, 48) if wide else (48, 96))
    (copy,) = copies(raw, (look(raw).width,))
    picture = opened(copy).convert("RGB")
    assert picture.size == (copy.width, copy.height) == ((96, 48) if wide else (48, 96))
    places = {
        "upper left": (4, 4),
        "upper right": (picture.width - 5, 4),
        "lower left": (4, picture.height - 5),
        "lower right": (picture.width - 5, picture.height - 5),
    }
    seen = {place: nearest(picture.getpixel(at)) for place, at in places.items()}
    left, right = ORIENTATIONS[orientation]
    assert (seen[left], seen[right]) == (RED, GREEN)


def test_nothing_but_pixels_comes_along():
    exif = Image.Exif()
    exif[0x010F] = "A camera with a name"
    place = exif.get_ifd(0x8825)
    place[1], place[2] = "N", (48.0, 12.0, 30.0)
    xmp = b"<x:xmpmeta xmlns:x='adobe:ns:meta/'>where I live</x:xmpmeta>"
    raw = saved(corners(), exif=exif, comment="said beside", xmp=xmp, dpi=(300, 300))
    for mark in (b"Exif", b"A camera", b"said beside", b"where I live"):
        assert mark in raw
        assert mark not in copies(raw, (96,))[0].content
    (copy,) = copies(raw, (96,))
    assert dict(opened(copy).getexif()) == {}
    assert set(opened(copy).info) <= {"jfif", "jfif_version", "jfif_unit", "jfif_density", "progressive", "progression"}


def test_what_is_transparent_stays_so_and_what_only_could_be_is_a_plain_jpeg():
    clear = corners().convert("RGBA")
    assert copies(saved(clear, "PNG"), (96,))[0].ending == ".jpg"
    clear.putpixel((90, 40), (0, 0, 0, 0))
    clear.paste((0, 0, 0, 0), (60, 30, 96, 48))
    for kind in ("PNG", "WEBP"):
        (copy,) = copies(saved(clear, kind), (96,))
        assert (copy.ending, opened(copy).mode) == (".webp", "RGBA")
        assert opened(copy).getpixel((90, 44))[3] == 0
        assert opened(copy).getpixel((4, 4))[3] == 255
    palette = corners().quantize(8)
    palette.info["transparency"] = palette.getpixel((90, 40))
    (copy,) = copies(saved(palette, "PNG", transparency=palette.info["transparency"]), (96,))
    assert copy.ending == ".webp"
    assert opened(copy).getpixel((90, 40))[3] == 0


@pytest.mark.parametrize(
    ("image", "kind"),
    [
        (corners().convert("CMYK"), "JPEG"),
        (corners().convert("P"), "PNG"),
        (corners(), "WEBP"),
    ],
    ids=["CMYK JPEG", "palette PNG", "WebP"],
)
def test_colors_look_alike_however_they_are_stored(image, kind):
    picture = opened(copies(saved(image, kind), (96,))[0])
    assert picture.mode == "RGB"
    assert [nearest(picture.getpixel(at)) for at in ((4, 4), (90, 4), (4, 44), (90, 44))] == [RED, GREEN, BLUE, GRAY]


@pytest.mark.parametrize(("mode", "value"), [("L", 200), ("LA", (200, 255)), ("I;16", 200 * 257), ("1", 255)])
def test_grays_stay_as_light_as_they_are(mode, value):
    image = Image.new(mode, (40, 40), value)
    shade = opened(copies(saved(image, "PNG"), (40,))[0]).convert("L").getpixel((20, 20))
    assert abs(shade - (255 if mode == "1" else 200)) <= 1


def profile(red, green, blue):
    """An ICC profile of three primaries, given as XYZ, and a plain curve.   Source: ICC.1 (from memory)."""

    def s15(value):
        return struct.pack(">i", round(value * 65536))

    def xyz(values):
        return b"XYZ \0\0\0\0" + b"".join(map(s15, values))

    curve = b"curv\0\0\0\0" + struct.pack(">IH", 1, round(2.2 * 256)) + b"\0\0"
    text = b"text\0\0\0\0none\0\0\0\0"
    name = b"desc\0\0\0\0" + struct.pack(">I", 5) + b"test\0" + bytes(78)
    name += bytes(-len(name) % 4)
    tags = {
        b"desc": name, b"cprt": text, b"wtpt": xyz((0.9642, 1.0, 0.8249)),
        b"rXYZ": xyz(red), b"gXYZ": xyz(green), b"bXYZ": xyz(blue),
        b"rTRC": curve, b"gTRC": curve, b"bTRC": curve,
    }  # fmt: skip
    table, body, start = struct.pack(">I", len(tags)), b"", 128 + 4 + 12 * len(tags)
    for key, data in tags.items():
        table += key + struct.pack(">II", start + len(body), len(data))
        body += data
    head = struct.pack(">I4sI4s4s4s", start + len(body), b"none", 0x02100000, b"mntr", b"RGB ", b"XYZ ") + bytes(12)
    head += b"acsp" + bytes(28) + b"".join(map(s15, (0.9642, 1.0, 0.8249)))
    return head.ljust(128, b"\0") + table + body


# sRGB's primaries adapted to D50, IEC 61966-2-1 (from memory)
SRGB = ((0.4361, 0.2225, 0.0139), (0.3851, 0.7169, 0.0971), (0.1431, 0.0606, 0.7141))


def test_a_color_profile_is_heeded_and_not_passed_on():
    """One that calls the first channel green: whoever drops it shows red glasses where green ones were."""
    red, green, blue = SRGB
    raw = saved(corners(), icc_profile=profile(green, red, blue))
    (copy,) = copies(raw, (96,))
    picture = opened(copy)
    assert [nearest(picture.getpixel(at)) for at in ((4, 4), (90, 4), (4, 44))] == [GREEN, RED, BLUE]
    assert "icc_profile" not in picture.info


@pytest.mark.parametrize("given", [b"no profile", profile(*SRGB)[:200], profile(*SRGB)])
def test_colors_stand_as_they_are_where_the_profile_is_none_or_the_usual_one(given):
    picture = opened(copies(saved(corners(), icc_profile=given), (96,))[0])
    assert [nearest(picture.getpixel(at)) for at in ((4, 4), (90, 4), (4, 44), (90, 44))] == [RED, GREEN, BLUE, GRAY]


def test_copies_are_no_larger_than_asked_keep_their_shape_and_are_the_same_each_time():
    raw = saved(corners(2000, 1001), quality=95)
    made = copies(raw, (480, 960, 1600))
    assert [(one.width, one.height) for one in made] == [(480, 240), (960, 480), (1600, 801)]
    assert [opened(one).size for one in made] == [(one.width, one.height) for one in made]
    assert made == copies(raw, (480, 960, 1600))
    assert [one.height for one in copies(saved(Image.new("RGB", (3000, 2))), (480,))] == [1]


@pytest.mark.parametrize(
    "raw",
    [b"", b"\xff\xd8\xff", b"GIF89a", b"<svg xmlns='http://www.w3.org/2000/svg'/>", b"%!PS-Adobe-3.0 EPSF-3.0\n"],
)
def test_what_is_no_photo_is_refused(raw):
    with pytest.raises(NotAPictureError):
        look(raw)


@pytest.mark.parametrize("kind", ["GIF", "TIFF", "BMP", "PPM", "ICO"])
def test_formats_that_browsers_or_cameras_do_not_share_are_refused(kind):
    with pytest.raises(NotAPictureError, match="no JPEG, PNG or WebP"):
        look(saved(corners(), kind))


def test_a_head_alone_says_how_large_a_picture_claims_to_be():
    """A PNG of fifty bytes that would take thirty gigabytes: nothing is decoded to know it (PNG 1.2, IHDR)."""
    body = b"IHDR" + struct.pack(">IIBBBBB", 100_000, 100_000, 8, 2, 0, 0, 0)
    head = b"\x89PNG\r\n\x1a\n" + struct.pack(">I", 13) + body + struct.pack(">I", zlib.crc32(body))
    assert look(head + b"\0\0\0\0IDAT") == Look("PNG", 100_000, 100_000)


@pytest.mark.parametrize("kind", ["JPEG", "PNG", "WEBP"])
def test_mangled_files_are_shown_or_refused_and_nothing_else(kind):
    """Cut anywhere, bytes changed anywhere: a decoder may raise what it likes, and the shop is told one thing."""
    dice = random.Random(kind)
    exif = Image.Exif()
    exif[0x0112] = 6
    whole = saved(corners(), kind, exif=exif, icc_profile=profile(*SRGB))
    outcomes = {True: 0, False: 0}
    for turn in range(250):
        raw = bytearray(whole[: dice.randrange(len(whole))] if turn % 3 == 0 else whole)
        for _ in range(dice.randrange(0 if turn % 3 == 0 else 1, 6)):
            if raw:
                raw[dice.randrange(len(raw))] = dice.randrange(256)
        try:
            about = look(bytes(raw))
            if about.width * about.height <= 1_000_000:
                copies(bytes(raw), (min(about.width, 96),))
            outcomes[True] += 1
        except NotAPictureError:
            outcomes[False] += 1
    assert outcomes[True] > 0
    assert outcomes[False] > 10


def test_a_photo_that_breaks_off_is_refused():
    raw = saved(Image.effect_noise((400, 300), 80).convert("RGB"))
    with pytest.raises(NotAPictureError, match="breaks off"):
        copies(raw[: len(raw) // 2], (400,))
