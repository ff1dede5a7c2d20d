package org.liftgate.shell.blocks

import android.content.Context
import android.util.TypedValue
import android.view.Gravity
import android.view.View
import android.widget.LinearLayout
import org.liftgate.R
import org.liftgate.shell.look.column
import org.liftgate.shell.look.pressed
import org.liftgate.shell.look.put
import org.liftgate.shell.look.rest
import org.liftgate.shell.look.role
import org.liftgate.shell.look.size
import org.liftgate.shell.look.slip
import org.liftgate.shell.look.text
import uniffi.liftgate.Block
import uniffi.liftgate.Keyboard

/** A field to write in, with its unit beside it; numbers larger than words. */
class EntryView(private val context: Context, taps: Taps) : BlockView {
    private val label = context.text(R.style.Text_Row)
    private val unit = context.text(R.style.Text)
    private val remarks = Remarks(context)
    private val field = Field(context, R.style.Text_Row, taps)
    private var name: String? = null

    override val view = LinearLayout(context).apply {
        orientation = LinearLayout.VERTICAL
        layoutParams = column(context.size(R.dimen.space_page))
        addView(label, column())
        addView(
            LinearLayout(context).apply {
                orientation = LinearLayout.HORIZONTAL
                gravity = Gravity.CENTER_VERTICAL
                addView(field, rest())
                addView(unit)
            },
            column(context.size(R.dimen.space_hair)),
        )
        addView(remarks.view, column())
    }

    init {
        label.labelFor = field.id
        unit.setPaddingRelative(context.size(R.dimen.space), 0, 0, 0)
        val pad = context.size(R.dimen.space)
        field.setPaddingRelative(pad, pad, pad, pad)
        field.gravity = Gravity.CENTER_VERTICAL
        val line = context.size(R.dimen.line)
        field.background = pressed(
            context.slip(context.role(R.attr.leaf), context.role(R.attr.action), line * 2),
            context.slip(context.role(R.attr.leaf), context.role(R.attr.ink), line),
        )
    }

    override fun bind(block: Block, typing: Boolean): Boolean {
        if (block !is Block.Entry || name != null && name != block.field) return false
        name = block.field
        view.tag = block.label
        label.put(block.label)
        label.contentDescription = listOfNotNull(block.label, block.unit).joinToString(", ")
        unit.put(block.unit)
        val number = block.keyboard == Keyboard.WHOLE || block.keyboard == Keyboard.DECIMAL
        val type = context.size(if (number) R.dimen.type_entry else R.dimen.type_row)
        field.setTextSize(TypedValue.COMPLEX_UNIT_PX, type.toFloat())
        field.bind(block.field, block.text, block.keyboard, typing)
        remarks.put(block.flag, block.hint)
        return true
    }

    override fun refuse(field: String, reason: String): View? {
        if (field != name) return null
        remarks.refuse(reason)
        return remarks.view
    }
}
