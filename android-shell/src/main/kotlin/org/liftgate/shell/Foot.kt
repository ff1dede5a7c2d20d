package org.liftgate.shell

import android.content.Context
import android.view.Gravity
import android.view.View
import android.view.ViewGroup
import android.view.accessibility.AccessibilityNodeInfo
import android.widget.Button
import android.widget.LinearLayout
import org.liftgate.R
import org.liftgate.shell.blocks.ControlView
import org.liftgate.shell.blocks.Controls
import org.liftgate.shell.blocks.Shape
import org.liftgate.shell.blocks.Taps
import org.liftgate.shell.look.Flow
import org.liftgate.shell.look.Page
import org.liftgate.shell.look.column
import org.liftgate.shell.look.drawable
import org.liftgate.shell.look.icon
import org.liftgate.shell.look.ink
import org.liftgate.shell.look.pressed
import org.liftgate.shell.look.put
import org.liftgate.shell.look.rest
import org.liftgate.shell.look.role
import org.liftgate.shell.look.size
import org.liftgate.shell.look.slip
import org.liftgate.shell.look.text
import uniffi.liftgate.Control
import uniffi.liftgate.Screen

/**
 * What the thumb reaches: the undoing of the last thing, lesser actions, and lowest of all the way back beside the
 * main action. Never more than about half of the screen; beyond that it scrolls.
 */
class Foot(private val context: Context, private val taps: Taps) : Page(context) {
    private val notice = context.text(R.style.Text_Strong)
    private val refusal = refusal()
    private val undo = UndoBar(context, taps)
    private val others = Controls(context, Flow(context, atMost = 3), taps)
    private val back = ControlView(context, Shape.ICON, taps::tapped)
    private val backInWords = ControlView(context, Shape.WORDS, taps::tapped)
    private val main = ControlView(context, Shape.WORDS, taps::tapped)
    private val last = LinearLayout(context).apply {
        orientation = LinearLayout.HORIZONTAL
        val gap = context.size(R.dimen.target_gap)
        addView(
            back,
            LinearLayout.LayoutParams(context.size(R.dimen.target), ViewGroup.LayoutParams.MATCH_PARENT)
                .apply { marginEnd = gap },
        )
        addView(main, LinearLayout.LayoutParams(0, ViewGroup.LayoutParams.WRAP_CONTENT, 1f))
        addView(backInWords, LinearLayout.LayoutParams(0, ViewGroup.LayoutParams.WRAP_CONTENT, 1f))
    }
    private val undoRule = hair()
    private val actions = LinearLayout(context).apply {
        orientation = LinearLayout.VERTICAL
        val gap = context.size(R.dimen.target_gap)
        val side = context.size(R.dimen.space_page)
        setPadding(side, gap, side, context.size(R.dimen.space))
        addView(others.group, column().apply { bottomMargin = gap })
        addView(last, column())
    }
    private val items = LinearLayout(context).apply {
        orientation = LinearLayout.VERTICAL
        gravity = Gravity.BOTTOM
        addView(refusal, column())
        addView(undo, column())
        addView(undoRule)
        addView(actions, column())
    }
    private var most = Int.MAX_VALUE
    private var compact = false
    private var lesser = false
    private var undoable = false

    init {
        id = R.id.foot
        isFillViewport = true
        setBackgroundColor(context.role(R.attr.paper))
        addView(items)
    }

    fun show(screen: Screen, said: String?, beside: Boolean) {
        most = if (beside) Int.MAX_VALUE else (resources.displayMetrics.heightPixels * MOST).toInt()
        refuse(null)
        undo.show(screen.undo, said)
        undoable = screen.undo != null || said != null
        val first = screen.foot.firstOrNull()
        val rest = screen.foot.drop(1)
        others.bind(rest, if (rest.size > 1) Shape.TILE else Shape.WORDS)
        lesser = rest.isNotEmpty()
        hideLesser()
        show(main, first)
        show(back, screen.back.takeIf { first != null })
        show(backInWords, screen.back.takeIf { first == null })
        visibility = if (screen.foot.isEmpty() && screen.back == null && screen.undo == null) View.GONE else View.VISIBLE
    }

    /** With [on], only the way back and the main action are left. */
    fun compact(on: Boolean) {
        if (on == compact) return
        compact = on
        hideLesser()
    }

    private fun hideLesser() {
        others.group.visibility = if (lesser && !compact) View.VISIBLE else View.GONE
        undo.visibility = if (undoable && !compact) View.VISIBLE else View.GONE
        undoRule.visibility = undo.visibility
    }

    /** Shows why the last tap was refused, until another screen is shown; null takes it away. */
    fun refuse(reason: String?) {
        notice.put(reason)
        refusal.visibility = if (reason == null) View.GONE else View.VISIBLE
    }

    private fun refusal() = LinearLayout(context).apply {
        orientation = LinearLayout.VERTICAL
        visibility = View.GONE
        val rule = View(context).apply { setBackgroundColor(context.role(R.attr.ink)) }
        addView(rule, LinearLayout.LayoutParams(ViewGroup.LayoutParams.MATCH_PARENT, context.size(R.dimen.line_thick)))
        val line = LinearLayout(context).apply {
            val pad = context.size(R.dimen.space_page)
            setPadding(pad, context.size(R.dimen.space), pad, context.size(R.dimen.space_small))
            val sign = context.icon(R.dimen.icon).apply { put(R.drawable.ic_warning, context.role(R.attr.ink)) }
            (sign.layoutParams as LinearLayout.LayoutParams).marginEnd = context.size(R.dimen.space)
            addView(sign)
            addView(notice, rest())
        }
        addView(line, column())
    }

    private fun hair() = View(context).apply {
        setBackgroundColor(context.role(R.attr.rule))
        val line = context.size(R.dimen.line_hair)
        layoutParams = LinearLayout.LayoutParams(ViewGroup.LayoutParams.MATCH_PARENT, line)
    }

    private fun show(view: ControlView, control: Control?) {
        view.visibility = if (control == null) View.GONE else View.VISIBLE
        // What is not shown keeps no words of the screen before: a tool that reads all views would come upon them.
        if (control == null) view.contentDescription = null else view.bind(control)
    }

    override fun onMeasure(widthSpec: Int, heightSpec: Int) {
        val room = if (MeasureSpec.getMode(heightSpec) == MeasureSpec.UNSPECIFIED) most else MeasureSpec.getSize(heightSpec)
        val mode = MeasureSpec.getMode(heightSpec).takeUnless { it == MeasureSpec.UNSPECIFIED } ?: MeasureSpec.AT_MOST
        super.onMeasure(widthSpec, MeasureSpec.makeMeasureSpec(minOf(room, most), mode))
    }

    private companion object {
        const val MOST = 0.55f
    }
}

/** What was recorded last, and its withdrawal in one tap anywhere on it. */
class UndoBar(private val context: Context, private val taps: Taps) : LinearLayout(context) {
    private val said = context.text(R.style.Text_Strong)
    private val label = context.text(R.style.Text_Strong)
    private val mark = context.icon(R.dimen.icon)
    private var control: Control? = null

    init {
        id = R.id.undo
        orientation = HORIZONTAL
        gravity = Gravity.CENTER_VERTICAL
        val pad = context.size(R.dimen.space_page)
        setPaddingRelative(pad, context.size(R.dimen.space_small), pad, context.size(R.dimen.space_small))
        (mark.layoutParams as LayoutParams).marginEnd = context.size(R.dimen.space)
        addView(mark)
        label.ink(context.role(R.attr.action))
        val words = LinearLayout(context).apply {
            orientation = VERTICAL
            for (part in listOf(said, label)) {
                part.importantForAccessibility = View.IMPORTANT_FOR_ACCESSIBILITY_NO
                addView(part, column())
            }
        }
        addView(words, rest())
        minimumHeight = context.size(R.dimen.target)
        background = pressed(
            context.slip(context.role(R.attr.leaf), context.role(R.attr.actionPressed), context.size(R.dimen.line) * 2),
            context.slip(context.role(R.attr.paper), 0, 0),
        )
        setOnClickListener { control?.let(taps::tapped) }
    }

    fun show(next: Control?, words: String?) {
        control = next
        isClickable = next != null
        isFocusable = next != null
        tag = next?.label
        setTag(R.id.token, next?.token)
        contentDescription = next?.spoken
        // What was said last, and once that is gone, what would be taken back.
        said.put(words ?: next?.detail)
        label.put(next?.label)
        mark.put(next?.icon?.drawable ?: R.drawable.ic_tick, context.role(if (next == null) R.attr.ink else R.attr.action))
    }

    override fun onInitializeAccessibilityNodeInfo(info: AccessibilityNodeInfo) {
        super.onInitializeAccessibilityNodeInfo(info)
        if (control != null) info.className = Button::class.java.name
    }
}
