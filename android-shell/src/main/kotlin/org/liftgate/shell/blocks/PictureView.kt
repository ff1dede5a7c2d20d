package org.liftgate.shell.blocks

import android.content.Context
import android.graphics.Canvas
import android.graphics.DashPathEffect
import android.graphics.Paint
import android.graphics.Path
import android.graphics.Rect
import android.graphics.RectF
import android.graphics.Typeface
import android.view.View
import org.liftgate.R
import org.liftgate.shell.look.column
import org.liftgate.shell.look.role
import org.liftgate.shell.look.size
import org.liftgate.shell.look.typeset
import uniffi.liftgate.Anchor
import uniffi.liftgate.Block
import uniffi.liftgate.Ink
import uniffi.liftgate.LabelSize
import uniffi.liftgate.Picture
import uniffi.liftgate.PictureLabel
import uniffi.liftgate.Stroke

class DrawingBlock(context: Context) : BlockView {
    override val view = PictureView(context).apply { layoutParams = column(context.size(R.dimen.space_page)) }

    override fun bind(block: Block, typing: Boolean): Boolean {
        if (block !is Block.Drawing) return false
        view.picture = block.picture
        return true
    }
}

/**
 * A line drawing from the core: points in its own units, fitted to the width of the screen with their shape kept;
 * line widths in dp and text in sp, so that both stay readable at any size. Drawn left to right in every language,
 * as a plot is.
 */
open class PictureView(context: Context) : View(context) {
    var picture: Picture? = null
        set(value) {
            field = value
            fitted = 0
            contentDescription = value?.spoken
            requestLayout()
            invalidate()
        }

    private val dp = resources.displayMetrics.density
    private val line = Paint(Paint.ANTI_ALIAS_FLAG).apply {
        strokeCap = Paint.Cap.ROUND
        strokeJoin = Paint.Join.ROUND
    }
    private val letters = Paint(Paint.ANTI_ALIAS_FLAG)
    private val halo = Paint(Paint.ANTI_ALIAS_FLAG).apply {
        style = Paint.Style.STROKE
        strokeWidth = HALO * dp
        strokeJoin = Paint.Join.ROUND
        color = context.role(R.attr.paper)
    }
    private val path = Path()

    /** The part of their size that words get so that none lies on another, and the width for which that was found. */
    private var part = 1f
    private var fitted = 0

    override fun onMeasure(widthSpec: Int, heightSpec: Int) {
        val wide = MeasureSpec.getSize(widthSpec)
        val shape = picture?.let { if (it.width > 0f) it.height / it.width else 0f } ?: 0f
        setMeasuredDimension(wide, (wide * shape).toInt())
    }

    override fun onDraw(canvas: Canvas) {
        val shown = picture ?: return
        fit()
        val scale = width / shown.width
        shown.strokes.forEach { draw(canvas, it, scale) }
        shown.labels.forEach { draw(canvas, it, scale) }
    }

    private fun draw(canvas: Canvas, stroke: Stroke, scale: Float) {
        path.rewind()
        stroke.points.forEachIndexed { i, point ->
            if (i == 0) path.moveTo(point.x * scale, point.y * scale) else path.lineTo(point.x * scale, point.y * scale)
        }
        if (stroke.closed) path.close()
        line.color = colour(stroke.ink)
        line.strokeWidth = stroke.width * dp
        line.style = if (stroke.filled) Paint.Style.FILL_AND_STROKE else Paint.Style.STROKE
        line.pathEffect = if (stroke.dashed) DashPathEffect(floatArrayOf(DASH * dp, DASH * dp), 0f) else null
        canvas.drawPath(path, line)
    }

    private fun draw(canvas: Canvas, label: PictureLabel, scale: Float) {
        val words = dress(label)
        val (x, y) = place(label, words, scale)
        canvas.drawText(words, x, y, halo)
        canvas.drawText(words, x, y, letters)
    }

    /** Sets the letters as [label] wants them and gives its words as they are set. */
    private fun dress(label: PictureLabel): String {
        letters.color = colour(label.ink)
        letters.textSize = resources.getDimension(label.size.dimen) * part
        letters.typeface = if (label.ink == Ink.QUIET) PLAIN else MEDIUM
        val words = context.typeset(label.text)
        // A label that is wider than the whole drawing at large type gives way.
        val wide = letters.measureText(words)
        if (wide > width) letters.textSize *= (width - 1) / wide
        halo.textSize = letters.textSize
        halo.typeface = letters.typeface
        return words
    }

    /** Where the words begin, on their base line. */
    private fun place(label: PictureLabel, words: String, scale: Float): Pair<Float, Float> {
        val wide = letters.measureText(words)
        val start = label.x * scale - when (label.anchor) {
            Anchor.START -> 0f
            Anchor.MIDDLE -> wide / 2
            Anchor.END -> wide
        }
        // Inside the drawing even where large type makes it wider than the core reckoned.
        val x = start.coerceIn(0f, maxOf(0f, width - wide))
        val y = (label.y * scale).coerceIn(-letters.ascent(), maxOf(-letters.ascent(), height - letters.descent()))
        return x to y
    }

    /** Words give way to each other at large type: a drawing cannot grow wider. */
    private fun fit() {
        if (fitted == width) return
        fitted = width
        part = 1f
        while (part > LEAST_PART && collide()) part -= PART_STEP
    }

    private fun collide(): Boolean {
        val all = places().map { it.second }
        return all.indices.any { i -> all.drop(i + 1).any { RectF.intersects(all[i], it) } }
    }

    /** Each label with the place that its letters take on the view, as it is drawn. */
    fun labelPlaces(): List<Pair<String, RectF>> {
        fit()
        return places()
    }

    private fun places(): List<Pair<String, RectF>> {
        val shown = picture ?: return emptyList()
        return shown.labels.map { label ->
            val words = dress(label)
            val (x, y) = place(label, words, width / shown.width)
            val tight = Rect().also { letters.getTextBounds(words, 0, words.length, it) }
            words to RectF(x, y + tight.top, x + letters.measureText(words), y + tight.bottom)
        }
    }

    private fun colour(ink: Ink): Int = context.role(
        when (ink) {
            Ink.STRONG, Ink.LIMIT -> R.attr.ink
            Ink.QUIET -> R.attr.inkQuiet
            Ink.ACTION -> R.attr.action
        },
    )

    private companion object {
        const val DASH = 5f
        const val PART_STEP = 0.05f
        const val LEAST_PART = 0.45f
        const val HALO = 4f
        val PLAIN: Typeface = Typeface.create("sans-serif", Typeface.NORMAL)
        val MEDIUM: Typeface = Typeface.create("sans-serif-medium", Typeface.NORMAL)
    }
}

private val LabelSize.dimen: Int
    get() = when (this) {
        LabelSize.SMALL -> R.dimen.type_label
        LabelSize.LARGE -> R.dimen.type_heading
    }
