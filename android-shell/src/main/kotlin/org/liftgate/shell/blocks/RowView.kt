package org.liftgate.shell.blocks

import android.content.Context
import android.view.Gravity
import android.view.View
import android.view.ViewGroup
import android.view.accessibility.AccessibilityNodeInfo
import android.widget.Button
import android.widget.LinearLayout
import org.liftgate.R
import org.liftgate.shell.look.EdgeBar
import org.liftgate.shell.look.column
import org.liftgate.shell.look.drawable
import org.liftgate.shell.look.icon
import org.liftgate.shell.look.pressed
import org.liftgate.shell.look.put
import org.liftgate.shell.look.rest
import org.liftgate.shell.look.role
import org.liftgate.shell.look.size
import org.liftgate.shell.look.slip
import org.liftgate.shell.look.text
import uniffi.liftgate.Block
import uniffi.liftgate.Control
import uniffi.liftgate.Icon

/**
 * A line of the ledger: the edge bar, the state in words, what it is about. A slip that can be taken up where it
 * leads somewhere, plain text on the ground where it does not.
 */
class RowView(private val context: Context, private val taps: Taps) : BlockView {
    private val bar = EdgeBar(context)
    private val state = context.text(R.style.Text_State)
    private val title = context.text(R.style.Text_Row)
    private val detail = context.text(R.style.Text_Quiet)
    private val lead = context.icon(R.dimen.icon)
    private val words = LinearLayout(context).apply {
        orientation = LinearLayout.VERTICAL
        gravity = Gravity.CENTER_VERTICAL
        val pad = context.size(R.dimen.space)
        setPaddingRelative(pad, pad, pad, pad)
        for (part in listOf(state, title, detail)) addView(part, column())
    }
    private var control: Control? = null
    override val standsFor get() = Block.Row::class.java

    override val view = object : LinearLayout(context) {
        override fun onInitializeAccessibilityNodeInfo(info: AccessibilityNodeInfo) {
            super.onInitializeAccessibilityNodeInfo(info)
            if (control != null) info.className = Button::class.java.name
        }
    }.apply {
        orientation = LinearLayout.HORIZONTAL
        gravity = Gravity.CENTER_VERTICAL
        layoutParams = column(context.size(R.dimen.target_gap))
        addView(bar, LinearLayout.LayoutParams(ViewGroup.LayoutParams.WRAP_CONTENT, ViewGroup.LayoutParams.MATCH_PARENT))
        addView(words, rest())
        (lead.layoutParams as LinearLayout.LayoutParams).marginEnd = context.size(R.dimen.space)
        addView(lead)
    }

    override fun bind(block: Block, typing: Boolean): Boolean {
        if (block !is Block.Row) return false
        bar.edge = block.edge
        state.put(block.state)
        title.put(block.title)
        detail.put(block.detail)
        act(block.control)
        return true
    }

    /** Rows of one list stand closer to each other than to what comes before, and well away from controls that belong to that. */
    override fun follow(above: Block?) = view.gap(
        when (above) {
            is Block.Row -> R.dimen.target_gap
            is Block.Choice -> R.dimen.space_large
            else -> R.dimen.space
        },
    )

    private fun act(next: Control?) {
        control = next
        val open = next != null && next.enabled
        view.minimumHeight = context.size(if (open) R.dimen.target else R.dimen.space_large)
        view.isClickable = open
        view.isFocusable = open
        view.setTag(R.id.token, next?.token)
        view.contentDescription = next?.spoken
        view.setOnClickListener(next?.takeIf { open }?.let { { _: View -> taps.tapped(it) } })
        view.isClickable = open
        val parts = if (next == null) View.IMPORTANT_FOR_ACCESSIBILITY_AUTO else View.IMPORTANT_FOR_ACCESSIBILITY_NO
        for (part in listOf(state, title, detail)) part.importantForAccessibility = parts
        lead.put(sign(next, open), context.role(R.attr.action))
        view.background = if (open) slips() else null
    }

    private fun sign(next: Control?, open: Boolean): Int = when {
        next == null || !open -> 0
        next.icon == Icon.NONE -> R.drawable.ic_open
        else -> next.icon.drawable
    }

    private fun slips() = pressed(
        context.slip(context.role(R.attr.leaf), context.role(R.attr.actionPressed), context.size(R.dimen.line) * 2),
        context.slip(context.role(R.attr.leaf), context.role(R.attr.rule), context.size(R.dimen.line_hair)),
    )
}
