package org.liftgate.shell.spotter

import android.content.Context
import android.graphics.Canvas
import android.graphics.Paint
import android.graphics.Typeface
import android.view.View
import org.liftgate.R
import org.liftgate.shell.look.role
import org.liftgate.shell.look.size

/** Minutes and seconds as large as the width allows, to be read at arm's length. */
class ClockFace(context: Context) : View(context) {
    private val paint = Paint(Paint.ANTI_ALIAS_FLAG).apply {
        color = context.role(R.attr.ink)
        typeface = Typeface.create("sans-serif-medium", Typeface.NORMAL)
        fontFeatureSettings = "tnum"
        textAlign = Paint.Align.CENTER
    }
    private var words = "0:00"

    init {
        id = R.id.clock
    }

    var elapsedMs = 0L
        set(value) {
            field = value
            val seconds = maxOf(0L, value) / MS_A_SECOND
            val next = "%d:%02d".format(seconds / S_A_MINUTE, seconds % S_A_MINUTE)
            if (next == words) return
            val wider = next.length != words.length
            words = next
            contentDescription = spoken((seconds / S_A_MINUTE).toInt(), (seconds % S_A_MINUTE).toInt())
            if (wider) requestLayout()
            invalidate()
        }

    private fun spoken(minutes: Int, seconds: Int): String {
        val whole = resources.getQuantityString(R.plurals.minutes_spoken, minutes, minutes)
        return resources.getString(R.string.elapsed_spoken, whole, resources.getQuantityString(R.plurals.seconds_spoken, seconds, seconds))
    }

    override fun onMeasure(widthSpec: Int, heightSpec: Int) {
        val wide = MeasureSpec.getSize(widthSpec)
        // As high at ten minutes as before them: what stands below must not move in flight.
        val high = sizeFor(SHORTEST, wide)
        paint.textSize = sizeFor(words.replace(Regex("[0-9]"), "8"), wide)
        setMeasuredDimension(wide, (high * DIGIT_HEIGHT).toInt() + 2 * context.size(R.dimen.space_small))
    }

    private fun sizeFor(words: String, wide: Int): Float {
        paint.textSize = PROBE
        val highest = resources.displayMetrics.heightPixels * HIGHEST
        return minOf(PROBE * wide / paint.measureText(words), highest / DIGIT_HEIGHT)
    }

    override fun onDraw(canvas: Canvas) {
        canvas.drawText(words, width / 2f, height - context.size(R.dimen.space_small).toFloat(), paint)
    }

    private companion object {
        const val MS_A_SECOND = 1000L
        const val S_A_MINUTE = 60L
        const val PROBE = 100f
        const val HIGHEST = 0.24f
        const val SHORTEST = "8:88"

        /** A digit's height as a part of the type size, with nothing below the line. */
        const val DIGIT_HEIGHT = 0.72f
    }
}

/**
 * The flight as a rule: thick as far as it has come, a notch at each call, a double bar at the planned landing.
 * Where the flight runs on, the rule is drawn to the present and the double bar moves inwards.
 */
class ClockRule(context: Context) : View(context) {
    private val line = context.size(R.dimen.line).toFloat()
    private val thick = context.size(R.dimen.edge_bar).toFloat()
    private val paint = Paint().apply { color = context.role(R.attr.ink) }
    private var plannedMs = 0L
    private var callsMs = listOf<Long>()

    init {
        importantForAccessibility = IMPORTANT_FOR_ACCESSIBILITY_NO
    }

    var elapsedMs = 0L
        set(value) {
            field = value
            invalidate()
        }

    fun plan(landingMs: Long, calls: List<Long>) {
        plannedMs = landingMs
        callsMs = calls
        invalidate()
    }

    override fun onMeasure(widthSpec: Int, heightSpec: Int) {
        setMeasuredDimension(MeasureSpec.getSize(widthSpec), (thick * 2).toInt())
    }

    override fun onDraw(canvas: Canvas) {
        if (layoutDirection == LAYOUT_DIRECTION_RTL) canvas.scale(-1f, 1f, width / 2f, 0f)
        val whole = maxOf(plannedMs, elapsedMs, 1L)
        fun at(ms: Long) = (width - line * 3) * (ms.toFloat() / whole).coerceIn(0f, 1f)
        val middle = height / 2f
        canvas.drawRect(0f, middle - line / 2, width.toFloat(), middle + line / 2, paint)
        canvas.drawRect(0f, middle - thick / 2, at(elapsedMs), middle + thick / 2, paint)
        callsMs.forEach { canvas.drawRect(at(it), middle - thick / 2, at(it) + line, middle + thick / 2, paint) }
        val end = at(plannedMs)
        canvas.drawRect(end, 0f, end + line, height.toFloat(), paint)
        canvas.drawRect(end + line * 2, 0f, end + line * 3, height.toFloat(), paint)
    }
}
