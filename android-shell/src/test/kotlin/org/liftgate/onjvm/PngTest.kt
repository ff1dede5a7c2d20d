package org.liftgate.onjvm

import android.graphics.Bitmap
import android.graphics.Canvas
import android.graphics.Color
import android.graphics.Paint
import java.io.ByteArrayInputStream
import java.io.ByteArrayOutputStream
import javax.imageio.ImageIO
import kotlin.random.Random
import org.junit.Assert.assertEquals
import org.junit.Assert.assertTrue
import org.junit.Rule
import org.junit.Test
import org.junit.rules.TemporaryFolder
import org.junit.runner.RunWith
import org.liftgate.shell.Phone
import org.robolectric.RobolectricTestRunner

/** Pictures as the desk and the season's player write them, read again by another program's reader. */
@RunWith(RobolectricTestRunner::class)
class PngTest {
    @get:Rule val folder = TemporaryFolder()

    private fun same(drawn: Bitmap) {
        val read = ImageIO.read(ByteArrayInputStream(Png.of(drawn)))
        assertEquals(drawn.width to drawn.height, read.width to read.height)
        for (y in 0 until drawn.height) for (x in 0 until drawn.width) {
            assertEquals("at $x, $y", drawn.getPixel(x, y) and 0xFFFFFF, read.getRGB(x, y) and 0xFFFFFF)
        }
    }

    @Test
    fun aPictureIsReadAsItWasDrawn() {
        val noise = Bitmap.createBitmap(61, 37, Bitmap.Config.ARGB_8888)
        val chance = Random(1)
        for (y in 0 until 37) for (x in 0 until 61) noise.setPixel(x, y, Color.rgb(chance.nextInt(256), chance.nextInt(256), chance.nextInt(256)))
        same(noise)
        same(Bitmap.createBitmap(1, 1, Bitmap.Config.ARGB_8888).apply { eraseColor(Color.WHITE) })
        val lines = Bitmap.createBitmap(120, 90, Bitmap.Config.ARGB_8888).apply { eraseColor(Color.WHITE) }
        Canvas(lines).drawText("Liftgate", 8f, 40f, Paint(Paint.ANTI_ALIAS_FLAG).apply { textSize = 24f })
        same(lines)
    }

    /** Side by side in one run, the machine's load falls on both: the ratio is what counts. */
    @Test
    fun aWindowIsWrittenInHalfTheTimeOfTheBitmapsOwnWriter() {
        Phone(folder.root).use { phone ->
            val window = phone.launch().drawn()
            fun own() = ByteArrayOutputStream().also { window.compress(Bitmap.CompressFormat.PNG, 100, it) }.size()
            fun ns(write: () -> Unit): Long = System.nanoTime().let { from -> write(); System.nanoTime() - from }
            repeat(10) { Png.of(window); own() }
            val both = List(15) { ns { Png.of(window) } to ns { own() } }
            // The least of each: what else the machine does only ever adds.
            val (quick, slow) = both.minOf { it.first } to both.minOf { it.second }
            println("a window as PNG: ${quick / 1_000} us, ${Png.of(window).size} bytes; by the bitmap's own writer ${slow / 1_000} us, ${own()} bytes")
            assertTrue("$quick ns against $slow ns", quick * 2 < slow)
        }
    }
}
