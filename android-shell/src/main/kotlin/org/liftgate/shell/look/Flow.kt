package org.liftgate.shell.look

import android.content.Context
import android.view.ViewGroup
import org.liftgate.R

/**
 * Children side by side as long as each fits with all its words on the lines it wants, then on the next line. Those on a line
 * share its whole width, in equal parts where that is enough for each, and its height, so that no target is smaller than it
 * could be. [between] is what lies between two lines, in pixels: texts that are not touched need less than targets.
 */
class Flow(
    context: Context,
    private val atMost: Int = Int.MAX_VALUE,
    private val between: Int = context.size(R.dimen.target_gap),
) : ViewGroup(context) {
    private val gap = context.size(R.dimen.target_gap)

    private class Line(val children: MutableList<Int> = mutableListOf(), val wants: MutableList<Int> = mutableListOf()) {
        var height = 0
        var widths = listOf<Int>()
    }

    private var lines = listOf<Line>()

    override fun onMeasure(widthSpec: Int, heightSpec: Int) {
        val wide = MeasureSpec.getSize(widthSpec) - paddingLeft - paddingRight
        lines = split(wide)
        for (line in lines) {
            line.widths = share(wide, line)
            line.height = line.children.indices.maxOf { place ->
                val child = getChildAt(line.children[place])
                child.measure(exactly(line.widths[place]), unlimited())
                child.measuredHeight
            }
            line.children.forEachIndexed { place, i -> getChildAt(i).measure(exactly(line.widths[place]), exactly(line.height)) }
        }
        val high = lines.sumOf { it.height } + between * maxOf(0, lines.size - 1) + paddingTop + paddingBottom
        setMeasuredDimension(MeasureSpec.getSize(widthSpec), high)
    }

    private fun split(wide: Int): List<Line> {
        val found = mutableListOf<Line>()
        for (i in 0 until childCount) {
            val child = getChildAt(i)
            if (child.visibility == GONE) continue
            child.measure(unlimited(), unlimited())
            val last = found.lastOrNull()
            val needed = (last?.wants?.sum() ?: 0) + child.measuredWidth + gap * (last?.wants?.size ?: 0)
            val line = last?.takeIf { it.wants.size < atMost && needed <= wide } ?: Line().also { found += it }
            line.children += i
            line.wants += child.measuredWidth
        }
        return found
    }

    /** Equal parts where each child has enough of them; else what each wants, and an equal part of what is left. */
    private fun share(wide: Int, line: Line): List<Int> {
        val count = line.wants.size
        val room = wide - gap * (count - 1)
        val each = room / count
        if (line.wants.all { it <= each }) return line.wants.map { each }
        val left = (room - line.wants.sum()) / count
        return line.wants.map { minOf(it + left, room) }
    }

    override fun onLayout(changed: Boolean, l: Int, t: Int, r: Int, b: Int) {
        val rtl = layoutDirection == LAYOUT_DIRECTION_RTL
        var top = paddingTop
        for (line in lines) {
            var along = 0
            line.children.forEachIndexed { place, i ->
                val each = line.widths[place]
                val left = if (rtl) width - paddingRight - along - each else paddingLeft + along
                getChildAt(i).layout(left, top, left + each, top + line.height)
                along += each + gap
            }
            top += line.height + between
        }
    }

    private fun exactly(size: Int) = MeasureSpec.makeMeasureSpec(size, MeasureSpec.EXACTLY)
    private fun unlimited() = MeasureSpec.makeMeasureSpec(0, MeasureSpec.UNSPECIFIED)
}
