package org.liftgate.shell.blocks

import android.content.Context
import android.graphics.drawable.Drawable
import android.graphics.drawable.GradientDrawable
import android.graphics.drawable.LayerDrawable
import android.view.Gravity
import android.view.View
import android.view.ViewGroup
import android.widget.LinearLayout
import org.liftgate.R
import org.liftgate.shell.look.column
import org.liftgate.shell.look.put
import org.liftgate.shell.look.role
import org.liftgate.shell.look.size
import org.liftgate.shell.look.text
import uniffi.liftgate.Block
import uniffi.liftgate.Keyboard

/**
 * Minus, a big value, plus: a number told without a keyboard, starting from the last one. The value itself can be
 * touched and typed over, as the second way.
 */
class StepperView(private val context: Context, taps: Taps) : BlockView {
    private val label = context.text(R.style.Text_Row)
    private val field = Field(context, R.style.Text_Value_Step, taps)
    private val unit = context.text(R.style.Text_Unit)
    private val less = ControlView(context, Shape.ICON, taps::tapped)
    private val more = ControlView(context, Shape.ICON, taps::tapped)
    private val remarks = Remarks(context)
    private var name: String? = null
    private val value = LinearLayout(context).apply {
        orientation = LinearLayout.HORIZONTAL
        // By their baselines: a small unit beside a big value stands on the same line.
        gravity = Gravity.CENTER_HORIZONTAL
        val fit = ViewGroup.LayoutParams.WRAP_CONTENT
        addView(field, LinearLayout.LayoutParams(fit, fit))
        addView(unit, LinearLayout.LayoutParams(fit, fit))
    }
    override val view = LinearLayout(context).apply {
        orientation = LinearLayout.VERTICAL
        layoutParams = column(context.size(R.dimen.space_page))
        addView(label, column())
        addView(Steps(context, less, value, more), column(context.size(R.dimen.space_hair)))
        addView(remarks.view, column())
    }

    init {
        label.labelFor = field.id
        field.setSelectAllOnFocus(true)
        field.setPadding(0, 0, 0, 0)
        field.background = underline()
        unit.setPaddingRelative(context.size(R.dimen.space_hair), 0, 0, 0)
    }

    /** A line in the action colour: the value can be taken up. */
    private fun underline(): Drawable {
        val line = GradientDrawable().apply { setColor(context.role(R.attr.action)) }
        return LayerDrawable(arrayOf(line)).apply {
            setLayerGravity(0, Gravity.BOTTOM or Gravity.FILL_HORIZONTAL)
            setLayerHeight(0, context.size(R.dimen.line))
            setLayerInsetBottom(0, context.size(R.dimen.space_hair))
        }
    }

    override fun bind(block: Block, typing: Boolean): Boolean {
        if (block !is Block.Stepper || name != null && name != block.field) return false
        name = block.field
        view.tag = block.label
        label.put(block.label)
        label.contentDescription = listOf(block.label, block.unit).filter { it.isNotEmpty() }.joinToString(", ")
        field.bind(block.field, block.value, Keyboard.DECIMAL, typing)
        unit.put(block.unit)
        less.bind(block.less)
        more.bind(block.more)
        remarks.put(block.flag, block.hint)
        return true
    }

    override fun refuse(field: String, reason: String): View? {
        if (field != name) return null
        remarks.refuse(reason)
        return remarks.view
    }

    /** The value between its two buttons, or above them where large type leaves it no room there. */
    private class Steps(context: Context, val less: View, val value: View, val more: View) : ViewGroup(context) {
        private val step = context.size(R.dimen.target_step)
        private val gap = context.size(R.dimen.target_gap)
        private var above = false

        init {
            for (part in listOf(less, value, more)) addView(part)
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
