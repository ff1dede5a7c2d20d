package org.liftgate.shell.spotter

import android.content.Context
import android.view.Gravity
import android.view.View
import android.view.ViewGroup
import android.view.WindowInsets
import android.widget.LinearLayout
import android.widget.TextView
import org.liftgate.R
import org.liftgate.shell.ShellActivity
import org.liftgate.shell.blocks.ControlView
import org.liftgate.shell.blocks.Shape
import org.liftgate.shell.blocks.heading
import org.liftgate.shell.look.Flow
import org.liftgate.shell.look.Page
import org.liftgate.shell.look.column
import org.liftgate.shell.look.drawable
import org.liftgate.shell.look.put
import org.liftgate.shell.look.rest
import org.liftgate.shell.look.role
import org.liftgate.shell.look.size
import org.liftgate.shell.look.standsBeside
import org.liftgate.shell.look.text
import uniffi.liftgate.MarkKind
import uniffi.liftgate.SpotterAct
import uniffi.liftgate.SpotterControl
import uniffi.liftgate.SpotterScreen

/**
 * The spotter's screen: the clock above, what to call and to keep to in the middle, marks and the one large control
 * where the thumb is.
 */
class SpotterView(
    context: Context,
    private val onAct: (SpotterAct) -> Unit,
    onMark: (MarkKind) -> Unit,
    onCode: (String) -> Unit,
) : LinearLayout(context) {
    private val aircraft = context.text(R.style.Text_Label)
    private val phase = context.text(R.style.Text_Heading)
    private val plan = context.text(R.style.Text_Quiet)
    private val call = context.text(R.style.Text_Sentence).apply {
        accessibilityLiveRegion = View.ACCESSIBILITY_LIVE_REGION_ASSERTIVE
        visibility = View.GONE
    }
    private val stops = Lines(context, R.string.stop_calls, R.style.Text_Call, sideBySide = true)
    private val limits = Lines(context, R.string.limits, R.style.Text)
    private val log = Lines(context, R.string.log, R.style.Text)
    private var mainAct: SpotterAct? = null
    private var secondAct: SpotterAct? = null
    private var undoAct: SpotterAct? = null
    private val main = HoldControl(context) { mainAct?.let(::act) }
    private val second = ControlView(context) { secondAct?.let(::act) }

    /** Takes the last mark back. Its place is there before the first mark, so that nothing else comes under a thumb that marks twice. */
    private val undo: ControlView
    private val marks = MarkPad(context, onMark)
    private val keys = LockPanel(context, ::act, onCode) { ask(false) }

    /** Whether the keys for the pilot's code are in view. */
    var asking = false
    val face = ClockFace(context)
    val rule = ClockRule(context)

    private val title = LinearLayout(context).apply {
        orientation = VERTICAL
        // Where it stands and for how long it is planned share a line: each line less is a call more in sight.
        val standing = Flow(context).apply { for (part in listOf(phase, plan)) addView(part) }
        for (part in listOf(aircraft, standing)) addView(part, column())
    }
    private val head = LinearLayout(context).apply { addView(title, rest()) }
    private val top = LinearLayout(context).apply {
        orientation = VERTICAL
        for (part in listOf(head, face, rule)) addView(part, column())
    }
    private val middle = LinearLayout(context).apply {
        orientation = VERTICAL
        for (part in listOf(limits, log)) addView(part.view, column(context.size(R.dimen.space_small)))
    }
    private val foot = LinearLayout(context).apply { orientation = VERTICAL }
    private lateinit var moving: View

    init {
        setBackgroundColor(context.role(R.attr.paper))
        val now = resources.configuration
        val beside = now.standsBeside(ROOMY_DP)
        val roomy = now.screenHeightDp >= ROOMY_DP && now.fontScale <= ROOMY_TYPE
        // Where fewer than four marks stand side by side, they take more lines than the foot has room for.
        val marksBelow = now.screenHeightDp >= HIGH_DP && roomy && now.screenWidthDp >= FOUR_ACROSS_DP
        undo = ControlView(context, undoShape(roomy, marksBelow)) { undoAct?.let(::act) }
        undo.minimumHeight = context.size(R.dimen.target)
        arrange(beside, roomy, marksBelow)
    }

    /** With its words where they move no mark by the lines that they take; the icon alone at the head of a page that holds the marks. */
    private fun undoShape(roomy: Boolean, marksBelow: Boolean) = when {
        marksBelow -> Shape.TILE
        roomy -> Shape.ICON
        else -> Shape.WORDS
    }

    /**
     * The calls for stopping come first. Marks stay in reach where the screen has room for them, and scroll with the rest where it has
     * not. What comes and goes in flight, a call and the way to take a mark back, stands where it moves no mark: above the page while
     * the marks are below it, below the page while they scroll in it.
     */
    private fun arrange(beside: Boolean, roomy: Boolean, marksBelow: Boolean) {
        val now = resources.configuration
        val gap = context.size(R.dimen.target_gap)
        val side = context.size(R.dimen.space_page)
        val moving = LinearLayout(context).apply { orientation = VERTICAL }
        val page = Page(context).apply {
            id = R.id.page
            addView(
                LinearLayout(context).apply {
                    orientation = VERTICAL
                    addView(keys.view, column(gap))
                    addView(moving, column())
                },
            )
        }
        keys.view.visibility = View.GONE
        keys.view.setPadding(side, 0, side, side)
        this.moving = moving
        foot.setPadding(side, gap, side, context.size(R.dimen.space))
        moving.setPadding(side, 0, side, side)
        if (roomy) top.setPadding(side, gap, side, 0) else moving.addView(top, column(gap))
        moving.addView(stops.view, column(context.size(R.dimen.space_small)))
        // On its side at large type the foot is high enough for the main thing alone; the rest follows the marks.
        val lesser = if (beside && now.fontScale > ROOMY_TYPE) moving else foot
        if (roomy) {
            val wide = context.size(if (marksBelow) R.dimen.side_tile else R.dimen.target)
            head.addView(undo, LayoutParams(wide, ViewGroup.LayoutParams.WRAP_CONTENT).apply { marginStart = gap })
        }
        if (marksBelow) foot.addView(marks.view, column()) else moving.addView(marks.view, column(gap))
        if (marksBelow) top.addView(call, column()) else lesser.addView(call, column())
        if (!roomy) lesser.addView(undo, column(gap))
        lesser.addView(second, column(gap))
        foot.addView(main, column(gap))
        moving.addView(middle, column())
        orientation = if (beside) HORIZONTAL else VERTICAL
        if (roomy) addView(top, column())
        if (beside) {
            addView(page, LayoutParams(0, ViewGroup.LayoutParams.MATCH_PARENT, 1f))
            foot.gravity = Gravity.BOTTOM
            addView(foot, LayoutParams(context.size(R.dimen.side_foot), ViewGroup.LayoutParams.MATCH_PARENT))
        } else {
            addView(page, LayoutParams(ViewGroup.LayoutParams.MATCH_PARENT, 0, 1f))
            addView(foot, column())
        }
    }

    override fun onApplyWindowInsets(insets: WindowInsets): WindowInsets {
        val (left, up, right, down) = ShellActivity.taken(insets)
        setPadding(left, up, right, down)
        return insets
    }

    fun show(screen: SpotterScreen) {
        aircraft.put(listOf(screen.aircraft, screen.title).filter { it.isNotEmpty() }.joinToString(" \u00b7 "))
        phase.put(screen.phase)
        plan.put(screen.clock.label)
        rule.plan(screen.clock.plannedS * MS, screen.calls.map { it.atS * MS })
        stops.put(screen.knockOff)
        limits.put(screen.limits)
        log.put(screen.log)
        marks.bind(screen.marks)
        // While no mark can be made, the room is better used by the calls and limits to know beforehand.
        val noting = screen.marks.any { it.enabled }
        marks.view.visibility = if (noting) View.VISIBLE else View.GONE
        mainAct = screen.main.act
        main.bind(screen.main.label, screen.main.icon.drawable, screen.main.holdMs.toLong())
        secondAct = put(second, screen.second)
        undoAct = put(undo, screen.undo)
        if (screen.undo == null && noting) undo.visibility = View.INVISIBLE
        keys.show(screen.lock)
        ask(asking && screen.lock != null)
    }

    private fun act(act: SpotterAct) {
        if (act == SpotterAct.ENTER_CODE) ask(true)
        onAct(act)
    }

    /** Shows the keys for the code in place of the flight, or the flight again. */
    private fun ask(open: Boolean) {
        asking = open
        keys.view.visibility = if (open) View.VISIBLE else View.GONE
        for (part in listOf(top, moving, foot)) part.visibility = if (open) View.GONE else View.VISIBLE
    }

    /** Says why what was asked for was not done. */
    fun refuse(reason: String) {
        if (asking) keys.refuse(reason) else calling(reason)
        announceForAccessibility(reason)
    }

    private fun put(view: ControlView, next: SpotterControl?): SpotterAct? {
        view.visibility = if (next == null) View.GONE else View.VISIBLE
        // What is out of sight has nothing to say either.
        if (next == null) view.contentDescription = null
        next?.let { view.bind(it.plain()) }
        return next?.act
    }

    /** Shows the call just made in large type; null takes it away. */
    fun calling(words: String?) = call.put(words)

    fun tick(elapsedMs: Long) {
        face.elapsedMs = elapsedMs
        rule.elapsedMs = elapsedMs
    }

    /** A list of sentences under a heading of the shell's own; nothing where there are none. */
    private class Lines(context: Context, title: Int, private val style: Int, sideBySide: Boolean = false) {
        private val lines: ViewGroup =
            if (sideBySide) Flow(context, ABREAST, context.size(R.dimen.line)) else LinearLayout(context).apply { orientation = VERTICAL }
        val view = LinearLayout(context).apply {
            orientation = VERTICAL
            addView(
                context.text(R.style.Text_State).apply {
                    put(context.getString(title))
                    heading()
                },
                column(),
            )
            addView(lines, column())
        }

        fun put(words: List<String>) {
            view.visibility = if (words.isEmpty()) View.GONE else View.VISIBLE
            while (lines.childCount > words.size) lines.removeViewAt(lines.childCount - 1)
            words.forEachIndexed { i, line ->
                if (i == lines.childCount) {
                    lines.addView(lines.context.text(style), column(lines.context.size(R.dimen.line)))
                }
                (lines.getChildAt(i) as TextView).put(line)
            }
        }
    }

    private companion object {
        const val MS = 1000L
        const val ROOMY_DP = 640
        const val ROOMY_TYPE = 1.15f

        /** From this height on there is room for three lines of marks in the foot, and above them for every call for stopping. */
        const val HIGH_DP = 880
        const val FOUR_ACROSS_DP = 340

        /** Short lines that share one. */
        const val ABREAST = 2
    }
}
