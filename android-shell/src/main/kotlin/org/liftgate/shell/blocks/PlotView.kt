package org.liftgate.shell.blocks

import android.content.Context
import android.os.Bundle
import android.view.Gravity
import android.view.MotionEvent
import android.view.View
import android.view.ViewConfiguration
import android.view.accessibility.AccessibilityNodeInfo
import android.view.accessibility.AccessibilityNodeInfo.AccessibilityAction
import android.widget.LinearLayout
import kotlin.math.abs
import kotlin.math.hypot
import org.liftgate.R
import org.liftgate.shell.look.Flow
import org.liftgate.shell.look.column
import org.liftgate.shell.look.put
import org.liftgate.shell.look.size
import org.liftgate.shell.look.text
import uniffi.liftgate.Block
import uniffi.liftgate.Control
import uniffi.liftgate.PlotFingers
import uniffi.liftgate.PlotPhase
import uniffi.liftgate.PlotReading

/**
 * Lines over time with their values above them, where no finger hides them. What fingers do goes to the
 * core as shares of the drawing's width, and the core's answer is shown; the same moves stand below as controls.
 */
class PlotBlock(private val context: Context, private val taps: Taps) : BlockView {
    private val title = context.text(R.style.Text_Row)
    private val readings = LinearLayout(context).apply { orientation = LinearLayout.VERTICAL }
    private val picture = FingerPicture(context, ::report, taps::tapped)
    private val actions = Controls(context, Flow(context), taps)
    override val view = LinearLayout(context).apply {
        orientation = LinearLayout.VERTICAL
        layoutParams = column(context.size(R.dimen.space_page))
        addView(title, column())
        addView(readings, column(context.size(R.dimen.space_small)))
        addView(picture, column(context.size(R.dimen.space_small)))
        addView(actions.group, column(context.size(R.dimen.space)))
        // A move by a control is told aloud; the words on the screen change with it.
        title.accessibilityLiveRegion = View.ACCESSIBILITY_LIVE_REGION_POLITE
    }
    private val lines = mutableListOf<ReadingView>()
    private var token = ""

    /** What the fingers did while the core was still drawing. */
    private val waiting = ArrayDeque<PlotFingers>()
    private var drawing = false

    override fun bind(block: Block, typing: Boolean): Boolean {
        if (block !is Block.Plot) return false
        token = block.token
        show(block)
        actions.bind(block.actions)
        return true
    }

    private fun show(plot: Block.Plot) {
        title.put(plot.title)
        if (title.contentDescription != plot.spoken) title.contentDescription = plot.spoken
        picture.picture = plot.picture
        picture.moves = plot.actions
        while (lines.size > plot.readings.size) readings.removeView(lines.removeAt(lines.lastIndex).view)
        while (lines.size < plot.readings.size) {
            lines += ReadingView(context).also { readings.addView(it.view, column(context.size(R.dimen.space_hair))) }
        }
        lines.zip(plot.readings) { line, reading -> line.show(reading) }
    }

    private fun report(fingers: PlotFingers) {
        val last = waiting.lastOrNull()
        if (last?.phase == PlotPhase.MOVE && fingers.phase == PlotPhase.MOVE) {
            // Two movements as one, so that none is lost and the drawing does not lag behind the fingers.
            waiting.removeLast()
            waiting += PlotFingers(fingers.phase, fingers.middle, last.spread * fingers.spread, last.shift + fingers.shift)
        } else {
            waiting += fingers
        }
        send()
    }

    private fun send() {
        if (drawing) return
        val fingers = waiting.removeFirstOrNull() ?: return
        drawing = true
        taps.fingers(token, fingers) { block ->
            drawing = false
            if (block is Block.Plot) {
                show(block)
                if (fingers.phase == PlotPhase.UP || fingers.phase == PlotPhase.TAP) actions.bind(block.actions)
            }
            send()
        }
    }

    /** What a line is, and its value beside it, or below where type is too large for both. */
    private class ReadingView(context: Context) {
        private val label = context.text(R.style.Text)
        private val value = context.text(R.style.Text_Value_Reading).apply {
            gravity = Gravity.END
            textAlignment = View.TEXT_ALIGNMENT_GRAVITY
        }
        val view = Flow(context, atMost = 2).apply {
            addView(label)
            addView(value)
        }

        fun show(reading: PlotReading) {
            label.put(reading.label)
            value.put("${reading.value} ${reading.unit}".trim())
        }
    }
}

/** A drawing that tells what fingers do on it: sideways and by two, since up and down moves the page. */
private class FingerPicture(
    context: Context, private val report: (PlotFingers) -> Unit, private val does: (Control) -> Unit,
) : PictureView(context) {
    /** The moves that a screen reader offers on the drawing. */
    var moves: List<Control> = emptyList()

    private val slop = ViewConfiguration.get(context).scaledTouchSlop
    private var downX = 0f
    private var downY = 0f
    private var lastX = 0f
    private var lastApart = 0f
    private var held = false

    init {
        isClickable = true
        isFocusable = true
    }

    override fun onTouchEvent(event: MotionEvent): Boolean {
        when (event.actionMasked) {
            MotionEvent.ACTION_DOWN -> {
                downX = event.x
                downY = event.y
                held = false
                begin(event)
            }
            MotionEvent.ACTION_POINTER_DOWN -> {
                hold()
                begin(event)
            }
            MotionEvent.ACTION_POINTER_UP -> begin(event, without = event.actionIndex)
            MotionEvent.ACTION_MOVE -> moved(event)
            MotionEvent.ACTION_UP -> if (held) end() else touched(event)
            MotionEvent.ACTION_CANCEL -> if (held) end()
        }
        return true
    }

    private fun begin(event: MotionEvent, without: Int = -1) {
        lastX = middle(event, without)
        lastApart = apart(event, without)
    }

    private fun moved(event: MotionEvent) {
        val sideways = abs(event.x - downX)
        if (!held && sideways > slop && sideways > abs(event.y - downY)) hold()
        if (!held) return
        val (x, apart) = middle(event) to apart(event)
        val spread = if (apart > 0f && lastApart > 0f) apart / lastApart else 1f
        tell(PlotPhase.MOVE, x, spread, (x - lastX) / width)
        lastX = x
        lastApart = apart
    }

    /** The page stays where it is from here on. */
    private fun hold() {
        if (held) return
        held = true
        parent?.requestDisallowInterceptTouchEvent(true)
        tell(PlotPhase.DOWN, downX)
    }

    private fun end() {
        held = false
        tell(PlotPhase.UP, lastX)
    }

    private fun touched(event: MotionEvent) {
        if (hypot(event.x - downX, event.y - downY) > slop) return
        downX = event.x
        performClick()
    }

    override fun performClick(): Boolean {
        super.performClick()
        tell(PlotPhase.TAP, if (downX > 0f) downX else width / 2f)
        return true
    }

    private fun tell(phase: PlotPhase, x: Float, spread: Float = 1f, shift: Float = 0f) =
        report(PlotFingers(phase, x / maxOf(1, width), spread, shift))

    private fun middle(event: MotionEvent, without: Int = -1): Float =
        (0 until event.pointerCount).filter { it != without }.map(event::getX).average().toFloat()

    private fun apart(event: MotionEvent, without: Int = -1): Float {
        val at = (0 until event.pointerCount).filter { it != without }
        return if (at.size < 2) 0f else hypot(event.getX(at[0]) - event.getX(at[1]), event.getY(at[0]) - event.getY(at[1]))
    }

    override fun onInitializeAccessibilityNodeInfo(info: AccessibilityNodeInfo) {
        super.onInitializeAccessibilityNodeInfo(info)
        moves.forEachIndexed { i, move -> if (move.enabled) info.addAction(AccessibilityAction(FIRST_MOVE + i, move.spoken)) }
    }

    override fun performAccessibilityAction(action: Int, arguments: Bundle?): Boolean {
        val move = moves.getOrNull(action - FIRST_MOVE)?.takeIf { it.enabled }
            ?: return super.performAccessibilityAction(action, arguments)
        does(move)
        return true
    }

    private companion object {
        /** Past the actions that the framework knows and the identifiers that it and the app's resources have. */
        const val FIRST_MOVE = 0x02000000
    }
}
