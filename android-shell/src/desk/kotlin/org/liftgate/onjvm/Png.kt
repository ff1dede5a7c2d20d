package org.liftgate.onjvm

import android.graphics.Bitmap
import java.io.ByteArrayOutputStream
import java.io.DataOutputStream
import java.util.zip.CRC32
import java.util.zip.Deflater

/**
 * Pictures of windows as PNG files, written for speed: of the form's filters only the one that takes the row above off (PNG
 * specification, 9.2), which leaves nothing of a plain ground, and the quickest packing. The bitmap's own writer tries every filter on
 * every row and packs hard.
 */
object Png {
    fun of(window: Bitmap): ByteArray {
        val out = ByteArrayOutputStream(FIRST_BYTES)
        val to = DataOutputStream(out)
        to.write(SIGNATURE)
        chunk(to, "IHDR", header(window.width, window.height))
        chunk(to, "IDAT", packed(rows(window)))
        chunk(to, "IEND", ByteArray(0))
        return out.toByteArray()
    }

    private fun header(width: Int, height: Int): ByteArray = ByteArrayOutputStream().also {
        val to = DataOutputStream(it)
        to.writeInt(width)
        to.writeInt(height)
        // Eight bits each of red, green and blue; packed, filtered and laid out in the one way there is.
        to.write(byteArrayOf(8, 2, 0, 0, 0))
    }.toByteArray()

    /** Every row behind the number of its filter, as differences from the row above. A window is opaque: what shows through is left out. */
    private fun rows(window: Bitmap): ByteArray {
        val wide = window.width
        val all = ByteArray((wide * COLOURS + 1) * window.height)
        val pixels = IntArray(wide * window.height)
        window.getPixels(pixels, 0, wide, 0, 0, wide, window.height)
        var at = 0
        for (row in 0 until window.height) {
            all[at++] = UP
            val from = row * wide
            for (i in from until from + wide) {
                val now = pixels[i]
                val above = if (row == 0) 0 else pixels[i - wide]
                if (now != above) {
                    all[at] = ((now shr RED) - (above shr RED)).toByte()
                    all[at + 1] = ((now shr GREEN) - (above shr GREEN)).toByte()
                    all[at + 2] = (now - above).toByte()
                }
                at += COLOURS
            }
        }
        return all
    }

    private fun packed(rows: ByteArray): ByteArray {
        val deflater = Deflater(Deflater.BEST_SPEED)
        try {
            deflater.setInput(rows)
            deflater.finish()
            val out = ByteArrayOutputStream(FIRST_BYTES)
            val piece = ByteArray(FIRST_BYTES)
            while (!deflater.finished()) out.write(piece, 0, deflater.deflate(piece))
            return out.toByteArray()
        } finally {
            deflater.end()
        }
    }

    private fun chunk(to: DataOutputStream, kind: String, bytes: ByteArray) {
        val named = kind.encodeToByteArray()
        to.writeInt(bytes.size)
        to.write(named)
        to.write(bytes)
        val check = CRC32()
        check.update(named)
        check.update(bytes)
        to.writeInt(check.value.toInt())
    }

    private val SIGNATURE = byteArrayOf(-119, 'P'.code.toByte(), 'N'.code.toByte(), 'G'.code.toByte(), 13, 10, 26, 10)
    private const val FIRST_BYTES = 1 shl 17
    private const val COLOURS = 3
    private const val UP: Byte = 2
    private const val RED = 16
    private const val GREEN = 8
}
