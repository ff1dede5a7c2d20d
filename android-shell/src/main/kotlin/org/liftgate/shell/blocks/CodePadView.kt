package org.liftgate.shell.blocks

import android.content.Context
import android.view.Gravity
import android.view.View
import android.view.accessibility.AccessibilityNodeInfo
import android.widget.Button
import android.widget.LinearLayout
import android.widget.TextView
import org.liftgate.R
import org.liftgate.shell.look.FittedText
import org.liftgate.shell.look.column
import org.liftgate.shell.look.ink
import org.liftgate.shell.look.pressed
import org.liftgate.shell.look.put
import org.liftgate.shell.look.role
import org.liftgate.shell.look.size
import org.liftgate.shell.look.slip
import org.liftgate.shell.look.text
import uniffi.liftgate.Block

/**
 * Ten digits for a gloved hand. What is typed is in this view alone until the last key is touched, and then it is gone
 * from here: no draft, no saved state, no keyboard that learns words.
 */
class CodePadView(private val context: Context, private val onDone: (String) -> Unit) : BlockView {
    private val label = context.text(R.style.Text_Row)
    private val typed = context.text(R.style.Text_Value_Step)
    private val hint = context.text(R.style.Text_Strong)
    private val all = mutableListOf<TextView>()
    private val keys = LinearLayout(context).apply { orientation = LinearLayout.VERTICAL }
    private val done = key("") { finish() }
    private var digits = ""
    private var hidden = true

    override val view = LinearLayout(context).apply {
        orientation = LinearLayout.VERTICAL
        layoutParams = column(context.size(R.dimen.space_page))
        addView(label, column())
        addView(typed, column())
        addView(hint, column())
        addView(keys, column(context.size(R.dimen.space_small)))
    }

    init {
        typed.gravity = Gravity.CENTER
        typed.minHeight = context.size(R.dimen.target)
        val erase = key(context.getString(R.string.erase)) { change(digits.dropLast(1)) }
        val rows = ("123456789".map { digit(it) }).chunked(ACROSS) + listOf(listOf(erase, digit('0'), done))
        rows.forEach { row ->
            val line = LinearLayout(context)
            row.forEachIndexed { i, key ->
                val place = LinearLayout.LayoutParams(0, LinearLayout.LayoutParams.MATCH_PARENT, 1f)
                if (i > 0) place.marginStart = context.size(R.dimen.target_gap)
                line.addView(key, place)
            }
            // A pad is read like a telephone's, whichever way the language runs.
            line.layoutDirection = View.LAYOUT_DIRECTION_LTR
            keys.addView(line, column(context.size(R.dimen.target_gap)))
        }
    }

    private fun digit(digit: Char) = key(digit.toString()) { if (digits.length < MOST) change(digits + digit) }

    private fun key(words: String, does: () -> Unit) = object : FittedText(context, R.style.Text_Action_Field) {
        override fun onInitializeAccessibilityNodeInfo(info: AccessibilityNodeInfo) {
            super.onInitializeAccessibilityNodeInfo(info)
            info.className = Button::class.java.name
        }
    }.apply {
        text = words
        contentDescription = words
        gravity = Gravity.CENTER
        textAlignment = View.TEXT_ALIGNMENT_CENTER
        minHeight = context.size(R.dimen.target_primary)
        minWidth = context.size(R.dimen.target)
        val edge = context.size(R.dimen.space_hair)
        setPadding(edge, edge, edge, edge)
        isFocusable = true
        setOnClickListener { does() }
        all += this
    }

    private fun dress(key: TextView, enabled: Boolean) {
        val line = context.size(R.dimen.line)
        val action = context.role(R.attr.action)
        key.isEnabled = enabled
        key.ink(context.role(if (enabled) R.attr.action else R.attr.inkQuiet))
        key.background = if (enabled) {
            pressed(
                context.slip(context.role(R.attr.leaf), context.role(R.attr.actionPressed), line * 2),
                context.slip(context.role(R.attr.leaf), action, line),
            )
        } else {
            context.slip(context.role(R.attr.paper), context.role(R.attr.rule), line, line * BROKEN)
        }
    }

    private fun change(next: String) {
        digits = next
        typed.text = if (hidden) "\u2022 ".repeat(next.length).trim() else next
        typed.contentDescription = context.resources.getQuantityString(R.plurals.digits, next.length, next.length)
    }

    private fun finish() {
        val code = digits
        change("")
        onDone(code)
    }

    override fun bind(block: Block, typing: Boolean): Boolean {
        if (block !is Block.CodePad) return false
        view.tag = block.label
        hidden = block.hidden
        label.put(block.label)
        hint.put(block.hint)
        done.put(block.done)
        done.contentDescription = block.done
        all.forEach { dress(it, block.enabled) }
        change(digits)
        return true
    }

    private companion object {
        const val ACROSS = 3
        const val MOST = 8
        const val BROKEN = 3f
    }
}
