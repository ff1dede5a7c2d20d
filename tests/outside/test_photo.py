"""A photo's small copy, held against Pillow: turned as its own reading of Exif turns it, and the same picture at the same size. Pillow
writes the file, so nothing of Liftgate's own is on that side."""

import io
import shutil

import liftgate as lg
import numpy as np
import pytest
from PIL import Image, ImageOps
from screens import control, go

SIZE = (1800, 1200)


def written(turn, **how):
    """A photo of soft grounds, each corner of another colour, as a camera writes it that was held in that position."""
    x, y = np.meshgrid(np.linspace(0, 1, SIZE[0]), np.linspace(0, 1, SIZE[1]))
    wave = 0.5 + 0.5 * np.sin(9 * x + 5 * y)
    pixels = np.stack([255 * x, 255 * y, 255 * wave], axis=-1).astype(np.uint8)
    said = Image.Exif()
    said[0x0112] = turn
    out = io.BytesIO()
    Image.fromarray(pixels).save(out, "JPEG", quality=92, exif=said, **how)
    return out.getvalue()


@pytest.fixture(scope="module")
def pilot(in_service, tmp_path_factory):
    file, now = in_service
    phone = lg.Liftgate.open(str(shutil.copy(file, tmp_path_factory.mktemp("photo"))), now)
    yield phone.pilot(), now
    phone.close_journal()


def shown(pilot, now, file):
    """The photo as the app shows it, once it was attached to the aircraft."""
    go(pilot, now, "Aircraft")
    pilot.picked(control(pilot.screen(now), "Attach a photo").token, "photo.jpg", len(file), now)
    pilot.fed(file, now)
    screen = pilot.fed(b"", now).screen
    newest = next(b for b in screen.blocks if isinstance(b, lg.Block.ROW) and b.title.startswith("Photo "))
    screen = pilot.tap(newest.control.token, now).screen
    photo = next(block for block in screen.blocks if isinstance(block, lg.Block.PHOTO))
    return Image.open(io.BytesIO(photo.jpeg))


@pytest.mark.parametrize("how", [{}, {"progressive": True}, {"subsampling": 0}])
@pytest.mark.parametrize("turn", range(1, 9))
def test_the_small_copy_is_what_pillow_sees(pilot, turn, how):
    file = written(turn, **how)
    small = shown(*pilot, file)
    whole = ImageOps.exif_transpose(Image.open(io.BytesIO(file)))
    wanted = whole.resize((1080, 720) if turn < 5 else (720, 1080), Image.Resampling.BOX)
    assert small.size == wanted.size
    assert not small.getexif(), "nothing of what the camera wrote is left"
    off = np.abs(np.asarray(small, dtype=int) - np.asarray(wanted, dtype=int))
    # Two levels in the mean are what writing it as JPEG once more costs; a turn or a mirror that is wrong costs 60.
    assert off.mean() < 2.5 and np.percentile(off, 99) < 16, (off.mean(), np.percentile(off, 99))


def test_one_in_grey_is_shown_in_grey(pilot):
    out = io.BytesIO()
    Image.linear_gradient("L").resize(SIZE).save(out, "JPEG", quality=92)
    small = np.asarray(shown(*pilot, out.getvalue()).convert("L"), dtype=int)
    assert small[0].mean() < 6 and small[-1].mean() > 249
    assert (np.diff(small.mean(axis=1)) > -1.5).all()
