package org.liftgate.shell.blocks

import android.content.Context
import android.text.Editable
import android.text.InputType
import android.text.TextWatcher
import android.text.method.DigitsKeyListener
import android.util.TypedValue
import android.view.Gravity
import android.view.View
import android.view.inputmethod.EditorInfo
import android.widget.EditText
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

/** A field to write in. Every change goes to the core at once, so that nothing typed is lost with the process. */
class EntryView(private val context: Context, private val taps: Taps) : BlockView {
    private val label = context.text(R.style.Text_Row)
    private val unit = context.text(R.style.Text)
    private val remarks = Remarks(context)
    private val field = EditText(context, null, 0, R.style.Text)
    private var name = ""
    private var keyboard: Keyboard? = null
    private var binding = false

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
        label.importantForAccessibility = View.IMPORTANT_FOR_ACCESSIBILITY_NO
        unit.setPaddingRelative(context.size(R.dimen.space), 0, 0, 0)
        field.apply {
            isFocusable = true
            isFocusableInTouchMode = true
            isClickable = true
            setTextAppearance(R.style.Text_Row)
            minimumHeight = context.size(R.dimen.target)
            gravity = Gravity.CENTER_VERTICAL
            val pad = context.size(R.dimen.space)
            setPaddingRelative(pad, pad, pad, pad)
            val line = context.size(R.dimen.line)
            background = pressed(
                context.slip(context.role(R.attr.leaf), context.role(R.attr.action), line * 2),
                context.slip(context.role(R.attr.leaf), context.role(R.attr.ink), line),
            )
            addTextChangedListener(Changes { if (!binding) taps.edited(name, it) })
            setOnEditorActionListener { _, _, _ -> taps.finished(name); false }
        }
    }

    override fun bind(block: Block): Boolean {
        if (block !is Block.Entry) return false
        if (name.isNotEmpty() && name != block.field) return false
        name = block.field
        view.tag = block.label
        field.setTag(R.id.field, block.field)
        field.contentDescription = listOfNotNull(block.label, block.unit).joinToString(", ")
        label.put(block.label)
        unit.put(block.unit)
        remarks.put(block.flag, block.hint)
        useKeyboard(block.keyboard)
        show(block.text)
        return true
    }

    private fun show(text: String) {
        if (field.text.toString() == text) return
        binding = true
        field.setText(text)
        field.setSelection(text.length)
        binding = false
    }

    private fun useKeyboard(next: Keyboard) {
        if (keyboard == next) return
        keyboard = next
        binding = true
        val number = next == Keyboard.WHOLE || next == Keyboard.DECIMAL
        field.setTextSize(TypedValue.COMPLEX_UNIT_PX, context.size(if (number) R.dimen.type_entry else R.dimen.type_row).toFloat())
        when (next) {
            Keyboard.WORDS -> field.inputType = InputType.TYPE_CLASS_TEXT or
                InputType.TYPE_TEXT_FLAG_CAP_SENTENCES or InputType.TYPE_TEXT_FLAG_MULTI_LINE
            Keyboard.NAME -> field.inputType = InputType.TYPE_CLASS_TEXT or
                InputType.TYPE_TEXT_FLAG_CAP_WORDS or InputType.TYPE_TEXT_FLAG_NO_SUGGESTIONS
            Keyboard.WHOLE -> field.inputType = InputType.TYPE_CLASS_NUMBER
            // A comma is as good as a point; the core reads both.
            Keyboard.DECIMAL -> {
                field.keyListener = DigitsKeyListener.getInstance("0123456789.,-\u2212")
                field.setRawInputType(
                    InputType.TYPE_CLASS_NUMBER or
                        InputType.TYPE_NUMBER_FLAG_DECIMAL or InputType.TYPE_NUMBER_FLAG_SIGNED,
                )
            }
        }
        field.imeOptions = EditorInfo.IME_ACTION_DONE or EditorInfo.IME_FLAG_NO_FULLSCREEN
        binding = false
    }

    private class Changes(val then: (String) -> Unit) : TextWatcher {
        override fun beforeTextChanged(s: CharSequence?, start: Int, count: Int, after: Int) = Unit
        override fun onTextChanged(s: CharSequence?, start: Int, before: Int, count: Int) = Unit
        override fun afterTextChanged(s: Editable?) = then(s?.toString() ?: "")
    }
}
