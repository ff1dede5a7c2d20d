package org.liftgate.shell.look

import android.content.Context
import android.graphics.Canvas
import android.graphics.Paint
import android.graphics.Path
import android.view.View
import org.liftgate.R
import uniffi.liftgate.Edge

/**
 * The bar at the leading side of whatever carries evidence. Its shape alone tells the state, in one ink:
 * solid is fresh, hatched is stale, hollow is missing, notched is a stop, a double rule is a caution.
 */
class EdgeBar(context: Context) : View(context) {
    private val line = context.resources.getDimension(R.dimen.line)
    private val full = context.size(R.dimen.edge_bar)
    private val paint = Paint(Paint.ANTI_ALIAS_FLAG).apply {
        color = context.role(R.attr.ink)
        strokeWidth = line
        strokeJoin = Paint.Join.MITER
    }
    private val path = Path()

    var edge: Edge = Edge.NONE
        set(value) {
            field = value
            visibility = if (value == Edge.NONE) GONE else VISIBLE
            invalidate()
        }

    init {
        importantForAccessibility = IMPORTANT_FOR_ACCESSIBILITY_NO
        visibility = GONE
    }

    override fun onMeasure(widthSpec: Int, heightSpec: Int) {
        setMeasuredDimension(resolveSize(full, widthSpec), getDefaultSize(0, heightSpec))
    }

    override fun onDraw(canvas: Canvas) {
        if (layoutDirection == LAYOUT_DIRECTION_RTL) canvas.scale(-1f, 1f, width / 2f, 0f)
        when (edge) {
            Edge.FRESH -> solid(canvas)
            Edge.STALE -> hatched(canvas)
            Edge.MISSING -> hollow(canvas)
            Edge.STOP -> notched(canvas)
            Edge.CAUTION -> doubled(canvas)
            Edge.NONE -> Unit
        }
    }

    private fun solid(canvas: Canvas) {
        paint.style = Paint.Style.FILL
        canvas.drawRect(0f, 0f, width.toFloat(), height.toFloat(), paint)
    }

    private fun hollow(canvas: Canvas) {
        paint.style = Paint.Style.STROKE
        canvas.drawRect(line / 2, line / 2, width - line / 2, height - line / 2, paint)
    }

    private fun hatched(canvas: Canvas) {
        hollow(canvas)
        canvas.save()
        canvas.clipRect(0f, 0f, width.toFloat(), height.toFloat())
        var y = 0f
        while (y < height + width) {
            canvas.drawLine(0f, y, width.toFloat(), y - width, paint)
            y += line * HATCH_STEP
        }
        canvas.restore()
    }

    /** Teeth cut into the trailing side, as a file's: felt as rough before it is read. */
    private fun notched(canvas: Canvas) {
        val wide = width.toFloat()
        val teeth = maxOf(2, (height / wide).toInt())
        val tooth = height / teeth.toFloat()
        path.rewind()
        path.moveTo(0f, 0f)
        for (i in 0 until teeth) {
            path.lineTo(wide, i * tooth)
            path.lineTo(wide * NOTCH_ROOT, i * tooth + tooth * NOTCH_AT)
            path.lineTo(wide, (i + 1) * tooth)
        }
        path.lineTo(0f, height.toFloat())
        path.close()
        paint.style = Paint.Style.FILL
        canvas.drawPath(path, paint)
    }

    private fun doubled(canvas: Canvas) {
        paint.style = Paint.Style.FILL
        val third = width / 3f
        canvas.drawRect(0f, 0f, third, height.toFloat(), paint)
        canvas.drawRect(width - third, 0f, width.toFloat(), height.toFloat(), paint)
    }

    private companion object {
        const val HATCH_STEP = 3f
        const val NOTCH_ROOT = 0.3f
        const val NOTCH_AT = 0.5f
    }
}
