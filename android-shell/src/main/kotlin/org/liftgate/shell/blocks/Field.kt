package org.liftgate.shell.blocks

import android.content.Context
import android.text.Editable
import android.text.InputType
import android.text.TextWatcher
import android.text.method.DigitsKeyListener
import android.view.View
import android.view.inputmethod.EditorInfo
import android.widget.EditText
import org.liftgate.R
import uniffi.liftgate.Keyboard

/**
 * What a person writes in. Every change is told at once, and kept with the next pause in typing; a
 * text that comes from the core is shown, but never put in the place of one that is being typed.
 */
class Field(context: Context, style: Int, private val taps: Taps) : EditText(context, null, 0, style) {
    private var name = ""
    private var keyboard: Keyboard? = null
    private var fromCore = false

    init {
        id = View.generateViewId()
        // The core keeps every text; the framework's own copy could come back under another field's number.
        isSaveEnabled = false
        isFocusable = true
        isFocusableInTouchMode = true
        isClickable = true
        isLongClickable = true
        minimumHeight = resources.getDimensionPixelSize(R.dimen.target)
        minimumWidth = resources.getDimensionPixelSize(R.dimen.target)
        addTextChangedListener(Changes())
        setOnEditorActionListener { _, _, _ ->
            taps.finished(name)
            false
        }
    }

    /** Shows [words] for the field called [field]; [typing] where they come back while it is being typed in. */
    fun bind(field: String, words: String, keys: Keyboard, typing: Boolean) {
        name = field
        setTag(R.id.field, field)
        fromCore = true
        use(keys)
        if (text.toString() != words && !(typing && isFocused)) {
            setText(words)
            setSelection(words.length)
        }
        fromCore = false
    }

    private fun use(next: Keyboard) {
        if (keyboard == next) return
        keyboard = next
        when (next) {
            Keyboard.WORDS -> inputType = InputType.TYPE_CLASS_TEXT or
                InputType.TYPE_TEXT_FLAG_CAP_SENTENCES or InputType.TYPE_TEXT_FLAG_MULTI_LINE
            Keyboard.NAME -> inputType = InputType.TYPE_CLASS_TEXT or
                InputType.TYPE_TEXT_FLAG_CAP_WORDS or InputType.TYPE_TEXT_FLAG_NO_SUGGESTIONS
            Keyboard.WHOLE -> inputType = InputType.TYPE_CLASS_NUMBER
            // A comma is as good as a point; the core reads both, and both signs for less than nothing.
            Keyboard.DECIMAL -> {
                keyListener = DigitsKeyListener.getInstance("0123456789.,-\u2212")
                setRawInputType(
                    InputType.TYPE_CLASS_NUMBER or
                        InputType.TYPE_NUMBER_FLAG_DECIMAL or InputType.TYPE_NUMBER_FLAG_SIGNED,
                )
            }
        }
        imeOptions = EditorInfo.IME_ACTION_DONE or EditorInfo.IME_FLAG_NO_FULLSCREEN
    }

    private inner class Changes : TextWatcher {
        override fun beforeTextChanged(s: CharSequence?, start: Int, count: Int, after: Int) = Unit
        override fun onTextChanged(s: CharSequence?, start: Int, before: Int, count: Int) = Unit
        override fun afterTextChanged(s: Editable?) {
            if (!fromCore) taps.edited(name, s?.toString().orEmpty().replace(HALF, "\uFFFD"))
        }
    }

    private companion object {
        /** Half of a sign that takes two places, as when a keyboard takes the other half away: no text that can be stored. */
        val HALF = Regex("\\p{Cs}")
    }
}
