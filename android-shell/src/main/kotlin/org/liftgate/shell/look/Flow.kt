package org.liftgate.shell.look

import android.content.Context
import android.view.ViewGroup
import org.liftgate.R

/**
 * Children side by side as long as each fits with all its words on the lines it wants, then on the next line;
 * those on a line share its whole width and height, so that no target is smaller than it could be.
 */
class Flow(context: Context, private val atMost: Int = Int.MAX_VALUE) : ViewGroup(context) {
    private val gap = context.size(R.dimen.target_gap)
    private class Line(val children: MutableList<Int> = mutableListOf(), var height: Int = 0)
    private var lines = listOf<Line>()

    override fun onMeasure(widthSpec: Int, heightSpec: Int) {
        val wide = MeasureSpec.getSize(widthSpec) - paddingLeft - paddingRight
        lines = split(wide)
        for (line in lines) {
            val each = share(wide, line)
            line.height = line.children.maxOf { i ->
                getChildAt(i).measure(exactly(each), unlimited())
                getChildAt(i).measuredHeight
            }
            line.children.forEach { getChildAt(it).measure(exactly(each), exactly(line.height)) }
        }
        val high = lines.sumOf { it.height } + gap * maxOf(0, lines.size - 1) + paddingTop + paddingBottom
        setMeasuredDimension(MeasureSpec.getSize(widthSpec), high)
    }

    private fun split(wide: Int): List<Line> {
        val found = mutableListOf<Line>()
        var widest = 0
        for (i in 0 until childCount) {
            val child = getChildAt(i)
            if (child.visibility == GONE) continue
            child.measure(unlimited(), unlimited())
            val line = found.lastOrNull()
            val count = (line?.children?.size ?: 0) + 1
            val needed = maxOf(widest, child.measuredWidth)
            if (line == null || count > atMost || needed * count + gap * (count - 1) > wide) {
                found += Line(mutableListOf(i))
                widest = child.measuredWidth
            } else {
                line.children += i
                widest = needed
            }
        }
        return found
    }

    private fun share(wide: Int, line: Line) = (wide - gap * (line.children.size - 1)) / line.children.size

    override fun onLayout(changed: Boolean, l: Int, t: Int, r: Int, b: Int) {
        val wide = width - paddingLeft - paddingRight
        val rtl = layoutDirection == LAYOUT_DIRECTION_RTL
        var top = paddingTop
        for (line in lines) {
            val each = share(wide, line)
            line.children.forEachIndexed { place, i ->
                val along = place * (each + gap)
                val left = if (rtl) width - paddingRight - along - each else paddingLeft + along
                getChildAt(i).layout(left, top, left + each, top + line.height)
            }
            top += line.height + gap
        }
    }

    private fun exactly(size: Int) = MeasureSpec.makeMeasureSpec(size, MeasureSpec.EXACTLY)
    private fun unlimited() = MeasureSpec.makeMeasureSpec(0, MeasureSpec.UNSPECIFIED)
}
