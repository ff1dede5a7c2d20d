package org.liftgate.shell.blocks

import android.content.Context
import android.view.Gravity
import android.view.View
import android.view.ViewGroup
import android.widget.LinearLayout
import org.liftgate.R
import org.liftgate.shell.look.column
import org.liftgate.shell.look.put
import org.liftgate.shell.look.quantity
import org.liftgate.shell.look.size
import org.liftgate.shell.look.text
import uniffi.liftgate.Block

/** Minus, a big value, plus: a number told without a keyboard, starting from the last one. */
class StepperView(private val context: Context, private val taps: Taps) : BlockView {
    private val label = context.text(R.style.Text_Row)
    private val value = context.text(R.style.Text_Value_Step)
    private val less = ControlView(context, Shape.ICON, taps::tapped)
    private val more = ControlView(context, Shape.ICON, taps::tapped)
    private val remarks = Remarks(context)
    override val view = LinearLayout(context).apply {
        orientation = LinearLayout.VERTICAL
        layoutParams = column(context.size(R.dimen.space_page))
        addView(label, column())
        addView(Steps(context, less, value, more), column(context.size(R.dimen.space_hair)))
        addView(remarks.view, column())
    }

    override fun bind(block: Block): Boolean {
        if (block !is Block.Stepper) return false
        label.put(block.label)
        view.tag = block.label
        view.setTag(R.id.field, block.field)
        value.put(context.quantity(block.value, block.unit))
        value.contentDescription =
            context.getString(R.string.current_value, block.label, block.value, block.unit)
        less.bind(block.less)
        more.bind(block.more)
        remarks.put(block.flag, block.hint)
        return true
    }

    /** The value between its two buttons, or above them where large type leaves it no room there. */
    private class Steps(context: Context, val less: View, val value: View, val more: View) : ViewGroup(context) {
        private val step = context.size(R.dimen.target_step)
        private val gap = context.size(R.dimen.target_gap)
        private var above = false

        init {
            addView(less)
            addView(value)
            addView(more)
            (value as android.widget.TextView).gravity = Gravity.CENTER
        }

        override fun onMeasure(widthSpec: Int, heightSpec: Int) {
            val wide = MeasureSpec.getSize(widthSpec)
            val between = wide - 2 * (step + gap)
            value.measure(unlimited(), unlimited())
            above = value.measuredWidth > between
            value.measure(exactly(if (above) wide else between), unlimited())
            val button = if (above) (wide - gap) / 2 else step
            val high = maxOf(step, if (above) 0 else value.measuredHeight)
            for (view in listOf(less, more)) view.measure(exactly(button), exactly(high))
            setMeasuredDimension(wide, if (above) value.measuredHeight + gap + high else high)
        }

        override fun onLayout(changed: Boolean, l: Int, t: Int, r: Int, b: Int) {
            val (first, last) = if (layoutDirection == LAYOUT_DIRECTION_RTL) more to less else less to more
            val top = if (above) value.measuredHeight + gap else 0
            first.layout(0, top, first.measuredWidth, height)
            last.layout(width - last.measuredWidth, top, width, height)
            val left = if (above) 0 else step + gap
            val down = if (above) 0 else (height - value.measuredHeight) / 2
            value.layout(left, down, left + value.measuredWidth, down + value.measuredHeight)
        }

        private fun exactly(size: Int) = MeasureSpec.makeMeasureSpec(size, MeasureSpec.EXACTLY)
        private fun unlimited() = MeasureSpec.makeMeasureSpec(0, MeasureSpec.UNSPECIFIED)
    }
}
