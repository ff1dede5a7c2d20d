package org.liftgate.season

import android.graphics.Bitmap
import android.graphics.Canvas
import android.graphics.Color
import android.graphics.Paint
import java.io.ByteArrayOutputStream

/** In the place of what a camera takes: sky, grass, and the outline of an aircraft on it, as a JPEG file of [width] by [height] pixels. */
fun drawnPhoto(width: Int = 1600, height: Int = 1200): ByteArray {
    val photo = Bitmap.createBitmap(width, height, Bitmap.Config.ARGB_8888)
    val canvas = Canvas(photo)
    val paint = Paint(Paint.ANTI_ALIAS_FLAG)
    fun at(share: Float, of: Int) = share * of
    fun ground(color: Int, from: Float, to: Float) {
        paint.color = color
        canvas.drawRect(0f, at(from, height), width.toFloat(), at(to, height), paint)
    }
    ground(Color.rgb(172, 196, 214), 0f, 0.6f)
    ground(Color.rgb(104, 122, 70), 0.6f, 1f)
    paint.color = Color.rgb(52, 48, 44)
    canvas.drawOval(at(0.2f, width), at(0.45f, height), at(0.5f, width), at(0.66f, height), paint)
    paint.strokeWidth = at(0.012f, width)
    fun line(x1: Float, y1: Float, x2: Float, y2: Float) =
        canvas.drawLine(at(x1, width), at(y1, height), at(x2, width), at(y2, height), paint)
    line(0.45f, 0.52f, 0.9f, 0.5f)
    line(0.9f, 0.4f, 0.9f, 0.6f)
    line(0.35f, 0.45f, 0.35f, 0.38f)
    line(0.02f, 0.4f, 0.68f, 0.36f)
    line(0.24f, 0.72f, 0.5f, 0.72f)
    return ByteArrayOutputStream().also { photo.compress(Bitmap.CompressFormat.JPEG, 85, it) }.toByteArray()
}
