package org.liftgate.shell.spotter

import android.annotation.SuppressLint
import android.content.Context
import android.graphics.Canvas
import android.graphics.Paint
import android.os.SystemClock
import android.view.Gravity
import android.view.MotionEvent
import android.view.View
import android.view.ViewConfiguration
import android.view.accessibility.AccessibilityNodeInfo
import android.widget.Button
import android.widget.LinearLayout
import org.liftgate.R
import org.liftgate.shell.look.column
import org.liftgate.shell.look.icon
import org.liftgate.shell.look.ink
import org.liftgate.shell.look.put
import org.liftgate.shell.look.rest
import org.liftgate.shell.look.role
import org.liftgate.shell.look.size
import org.liftgate.shell.look.slip
import org.liftgate.shell.look.text

/**
 * One large control that acts only after a finger rested on it for a while, so that a knock or a slip does nothing.
 * Through a screen reader or a switch it acts at once: there, choosing and doing are two steps already.
 */
@SuppressLint("ViewConstructor")
class HoldControl(context: Context, private val onHeld: () -> Unit) : LinearLayout(context) {
    private val mark = context.icon(R.dimen.icon_field)
    private val label = context.text(R.style.Text_Action_Field)
    private val how = context.text(R.style.Text_Strong)
    private val filling = Paint().apply { color = context.role(R.attr.actionPressed) }
    private var since = 0L
    private var held = 0f

    /** Long enough that no knock lasts it, short enough for a busy thumb: the core says how long. */
    private var holdMs = 0L

    init {
        orientation = HORIZONTAL
        gravity = Gravity.CENTER_VERTICAL
        isClickable = true
        isFocusable = true
        minimumHeight = context.size(R.dimen.target_field)
        val pad = context.size(R.dimen.space_page)
        setPaddingRelative(pad, pad / 2, pad, pad / 2)
        val action = context.role(R.attr.action)
        background = context.slip(action, action, 0)
        (mark.layoutParams as LayoutParams).marginEnd = context.size(R.dimen.space)
        addView(mark)
        val on = context.role(R.attr.onAction)
        addView(
            LinearLayout(context).apply {
                orientation = VERTICAL
                for (part in listOf(label, how)) {
                    part.ink(on)
                    part.importantForAccessibility = View.IMPORTANT_FOR_ACCESSIBILITY_NO
                    addView(part, column())
                }
            },
            rest(),
        )
        setOnClickListener { onHeld() }
        setWillNotDraw(false)
    }

    fun bind(words: String, icon: Int, holdMs: Long) {
        this.holdMs = holdMs
        tag = words
        label.put(words)
        how.put(context.getString(R.string.press_and_hold))
        mark.put(icon, context.role(R.attr.onAction))
        contentDescription = words
        rest(0f)
    }

    @SuppressLint("ClickableViewAccessibility") // performClick stays for readers and switches; a touch has to last
    override fun onTouchEvent(event: MotionEvent): Boolean {
        when (event.actionMasked) {
            MotionEvent.ACTION_DOWN -> begin()
            // A palm or a second finger is no decision.
            MotionEvent.ACTION_POINTER_DOWN -> rest(0f)
            MotionEvent.ACTION_MOVE -> if (outside(event)) rest(0f)
            MotionEvent.ACTION_UP, MotionEvent.ACTION_CANCEL -> rest(0f)
        }
        return true
    }

    private fun outside(event: MotionEvent): Boolean {
        val slop = ViewConfiguration.get(context).scaledTouchSlop
        return event.x < -slop || event.y < -slop || event.x > width + slop || event.y > height + slop
    }

    private fun begin() {
        since = SystemClock.uptimeMillis()
        how.put(context.getString(R.string.keep_holding))
        postOnAnimation(::tick)
    }

    private fun tick() {
        if (since == 0L) return
        held = (SystemClock.uptimeMillis() - since) / holdMs.toFloat()
        invalidate()
        if (held < 1f) {
            postDelayed(::tick, FRAME_MS)
        } else {
            rest(0f)
            onHeld()
        }
    }

    private fun rest(part: Float) {
        since = 0L
        held = part
        how.put(context.getString(R.string.press_and_hold))
        invalidate()
    }

    override fun onMeasure(widthSpec: Int, heightSpec: Int) {
        val wide = MeasureSpec.getSize(widthSpec) - paddingLeft - paddingRight
        val beside = wide - context.size(R.dimen.icon_field) - context.size(R.dimen.space)
        // The icon is decoration and gives way to the words at large type.
        val fits = maxOf(label.longestWord(), how.longestWord()) <= beside
        mark.visibility = if (fits) View.VISIBLE else View.GONE
        super.onMeasure(widthSpec, heightSpec)
    }

    override fun onDraw(canvas: Canvas) {
        val wide = width * held.coerceIn(0f, 1f)
        if (layoutDirection == LAYOUT_DIRECTION_RTL) {
            canvas.drawRect(width - wide, 0f, width.toFloat(), height.toFloat(), filling)
        } else {
            canvas.drawRect(0f, 0f, wide, height.toFloat(), filling)
        }
    }

    override fun onInitializeAccessibilityNodeInfo(info: AccessibilityNodeInfo) {
        super.onInitializeAccessibilityNodeInfo(info)
        info.className = Button::class.java.name
    }

    private companion object {
        const val FRAME_MS = 16L
    }
}
