package org.liftgate.shell

import android.content.Context
import android.graphics.Rect
import android.view.Gravity
import android.view.MotionEvent
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
import org.liftgate.shell.look.NO_BREAK
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
import org.liftgate.shell.look.typeset
import uniffi.liftgate.Control
import uniffi.liftgate.Screen

/**
 * What the thumb reaches: the undoing of the last thing in one line that stays, and below it lesser actions and lowest of all the way
 * back beside the main action. Never more than about half of the screen; where that is too little, the part below the line scrolls, and
 * begins with the main action in sight whatever stands above it.
 */
class Foot(private val context: Context, private val taps: Taps) : LinearLayout(context) {
    private val notice = context.text(R.style.Text_Strong)
    private val refusal = refusal()
    private val undo = UndoBar(context, taps)
    private val said = context.text(R.style.Text_Strong).apply { id = R.id.said }
    private val others = Controls(context, Flow(context, atMost = 3), taps)
    private val back = ControlView(context, Shape.ICON, taps::tapped)
    private val backInWords = ControlView(context, Shape.WORDS, taps::tapped)
    private val main = ControlView(context, Shape.WORDS, taps::tapped).apply { id = R.id.main_action }
    private val last = LinearLayout(context).apply {
        orientation = HORIZONTAL
        val gap = context.size(R.dimen.target_gap)
        addView(
            back,
            LayoutParams(context.size(R.dimen.target), ViewGroup.LayoutParams.MATCH_PARENT).apply { marginEnd = gap },
        )
        addView(main, LayoutParams(0, ViewGroup.LayoutParams.WRAP_CONTENT, 1f))
        addView(backInWords, LayoutParams(0, ViewGroup.LayoutParams.WRAP_CONTENT, 1f))
    }
    private val undoRule = hair()
    private val actions = LinearLayout(context).apply {
        orientation = VERTICAL
        val gap = context.size(R.dimen.target_gap)
        val side = context.size(R.dimen.space_page)
        setPadding(side, gap, side, context.size(R.dimen.space))
        addView(said, column().apply { bottomMargin = gap })
        addView(others.group, column().apply { bottomMargin = gap })
        addView(last, column())
    }
    private val items = LinearLayout(context).apply {
        orientation = VERTICAL
        gravity = Gravity.BOTTOM
        addView(refusal, column())
        addView(actions, column())
    }
    private val lower = LowerEnd(context, last).apply {
        isFillViewport = true
        addView(items)
    }
    private var most = Int.MAX_VALUE
    private var compact = false
    private var lesser = false
    private var undoable = false

    init {
        id = R.id.foot
        orientation = VERTICAL
        gravity = Gravity.BOTTOM
        setBackgroundColor(context.role(R.attr.paper))
        addView(undo, column())
        addView(undoRule)
        addView(lower, LayoutParams(ViewGroup.LayoutParams.MATCH_PARENT, 0, 1f))
        undo.spilt = { words -> said.put(words.takeUnless { compact }) }
    }

    fun show(screen: Screen, words: String?, beside: Boolean) {
        most = if (beside) Int.MAX_VALUE else (resources.displayMetrics.heightPixels * MOST).toInt()
        undo.show(screen.undo, words)
        undoable = screen.undo != null
        val first = screen.foot.firstOrNull()
        val rest = screen.foot.drop(1)
        others.bind(rest, if (rest.size > 1) Shape.TILE else Shape.WORDS)
        lesser = rest.isNotEmpty()
        refuse(null)
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
        undo.visibility = if (undoable && !compact && refusal.visibility == View.GONE) View.VISIBLE else View.GONE
        undoRule.visibility = undo.visibility
        said.put(undo.beside.takeUnless { compact })
    }

    /** Shows why the last tap was refused, in place of what was done before it, until another screen is shown; null takes it away. */
    fun refuse(reason: String?) {
        notice.put(reason)
        refusal.visibility = if (reason == null) View.GONE else View.VISIBLE
        lower.begins(atItsEnd = reason == null)
        hideLesser()
    }

    private fun refusal() = LinearLayout(context).apply {
        orientation = VERTICAL
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

/** The part of the foot that scrolls: it stays where [last] is in sight, or at its upper end, until a finger moves it. */
private class LowerEnd(context: Context, private val last: View) : Page(context) {
    private var atItsEnd = true
    private var moved = false

    /** Another content begins at its lower end, or at its upper one. */
    fun begins(atItsEnd: Boolean) {
        this.atItsEnd = atItsEnd
        moved = false
        requestLayout()
    }

    override fun onTouchEvent(event: MotionEvent): Boolean {
        if (event.actionMasked == MotionEvent.ACTION_MOVE) moved = true
        return super.onTouchEvent(event)
    }

    override fun onLayout(changed: Boolean, l: Int, t: Int, r: Int, b: Int) {
        super.onLayout(changed, l, t, r, b)
        if (!moved) scrollTo(0, if (atItsEnd) lowest() else 0)
    }

    /** As low as there is something, but no lower than where the last line begins: what it is stands first on it. */
    private fun lowest(): Int {
        val line = Rect(0, 0, last.width, last.height)
        offsetDescendantRectToMyCoords(last, line)
        return minOf(getChildAt(0).height - height, line.top)
    }
}

/**
 * The withdrawal of what was recorded last, in one tap anywhere on it and in one line: its own words, and beside them what it would
 * withdraw, as many whole words of it as there is room for. All of it is said aloud. What was recorded just now is shown in full: here,
 * or by [spilt] elsewhere where the line is too short for it.
 */
class UndoBar(private val context: Context, private val taps: Taps) : LinearLayout(context) {
    private val label = context.text(R.style.Text_Strong)
    private val what = context.text(R.style.Text_Label)
    private val mark = context.icon(R.dimen.icon)
    private val gap = context.size(R.dimen.space)
    private var control: Control? = null
    private var said: String? = null

    /** Told, as soon as the line is measured, which words have no room on it; null for none. */
    var spilt: (String?) -> Unit = {}

    /** The words that have no room on it. */
    var beside: String? = null
        private set

    init {
        id = R.id.undo
        orientation = HORIZONTAL
        gravity = Gravity.CENTER_VERTICAL
        val pad = context.size(R.dimen.space_page)
        setPaddingRelative(pad, context.size(R.dimen.space_small), pad, context.size(R.dimen.space_small))
        (mark.layoutParams as LayoutParams).marginEnd = gap
        addView(mark)
        label.ink(context.role(R.attr.action))
        for (part in listOf(label, what)) part.importantForAccessibility = View.IMPORTANT_FOR_ACCESSIBILITY_NO
        val fit = ViewGroup.LayoutParams.WRAP_CONTENT
        addView(label, LayoutParams(fit, fit))
        addView(what, rest().apply { marginStart = gap })
        minimumHeight = context.size(R.dimen.target)
        background = pressed(
            context.slip(context.role(R.attr.leaf), context.role(R.attr.actionPressed), context.size(R.dimen.line) * 2),
            context.slip(context.role(R.attr.paper), 0, 0),
        )
        setOnClickListener { control?.let(taps::tapped) }
    }

    /** Shows what [next] would take back; [words] are what was said just now. */
    fun show(next: Control?, words: String?) {
        control = next
        said = words
        isClickable = next != null
        isFocusable = next != null
        tag = next?.label
        setTag(R.id.token, next?.token)
        contentDescription = next?.spoken
        // On one line: its letters give way before it breaks.
        label.put(next?.label?.replace(' ', NO_BREAK))
        mark.put(next?.icon?.drawable ?: R.drawable.ic_tick, context.role(R.attr.action))
        // Until the line is measured nobody knows whether they have room on it.
        spill(words.takeIf { next == null })
        requestLayout()
    }

    private fun spill(words: String?) {
        if (beside == words) return
        beside = words
        spilt(words)
    }

    override fun onMeasure(widthSpec: Int, heightSpec: Int) {
        if (control != null) share(MeasureSpec.getSize(widthSpec) - paddingLeft - paddingRight)
        super.onMeasure(widthSpec, heightSpec)
    }

    private fun share(wide: Int) {
        val pictured = if (mark.visibility == View.VISIBLE) mark.layoutParams.width + gap else 0
        val room = wide - pictured - label.wholeLine().toInt() - 1 - gap
        val now = said
        if (now != null) {
            what.put(context.typeset(now).takeIf { it.isWithin(room) })
            spill(now.takeIf { what.visibility == View.GONE })
        } else {
            what.put(fitting(control?.detail.orEmpty(), room))
        }
    }

    private fun String.isWithin(room: Int) = what.widthOf(this) <= room

    /** [words], or as many whole ones of them as fit into [room] pixels; nothing where that would be none. */
    private fun fitting(words: String, room: Int): String? {
        val whole = context.typeset(words)
        if (whole.isEmpty() || whole.isWithin(room)) return whole
        val ends = whole.indices.filter { whole[it] == ' ' }.map { whole.take(it).trimEnd(',', ':', '.', ';', '\u2026') + '\u2026' }
        return ends.lastOrNull { it.isWithin(room) }
    }

    override fun onInitializeAccessibilityNodeInfo(info: AccessibilityNodeInfo) {
        super.onInitializeAccessibilityNodeInfo(info)
        if (control != null) info.className = Button::class.java.name
    }
}
