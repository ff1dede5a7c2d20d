package org.liftgate.shell.spotter

import android.content.Context
import android.text.Layout
import android.view.Gravity
import android.view.View
import android.view.accessibility.AccessibilityNodeInfo
import android.widget.Button
import android.widget.LinearLayout
import kotlin.math.ceil
import org.liftgate.R
import org.liftgate.shell.look.Flow
import org.liftgate.shell.look.column
import org.liftgate.shell.look.drawable
import org.liftgate.shell.look.icon
import org.liftgate.shell.look.ink
import org.liftgate.shell.look.pressed
import org.liftgate.shell.look.put
import org.liftgate.shell.look.role
import org.liftgate.shell.look.size
import org.liftgate.shell.look.slip
import org.liftgate.shell.look.text
import uniffi.liftgate.MarkButton
import uniffi.liftgate.MarkKind

/** One tap for each thing seen, heard or smelt; how often so far stands on it. */
class MarkPad(private val context: Context, private val onMark: (MarkKind) -> Unit) {
    val view = Flow(context, atMost = ACROSS)
    private val pads = mutableListOf<MarkView>()

    fun bind(marks: List<MarkButton>) {
        while (pads.size > marks.size) view.removeView(pads.removeAt(pads.size - 1))
        marks.forEachIndexed { i, mark ->
            if (i == pads.size) MarkView(context).let { view.addView(it); pads += it }
            pads[i].bind(mark)
        }
    }

    private inner class MarkView(context: Context) : LinearLayout(context) {
        private val sign = context.icon(R.dimen.icon)
        private val label = context.text(R.style.Text_Strong)
        private val count = context.text(R.style.Text_Strong)

        init {
            orientation = VERTICAL
            gravity = Gravity.CENTER
            isFocusable = true
            minimumHeight = context.size(R.dimen.target_primary)
            minimumWidth = context.size(R.dimen.target)
            val pad = context.size(R.dimen.space_small)
            setPadding(pad / 2, pad, pad / 2, pad)
            val line = LinearLayout(context).apply {
                gravity = Gravity.CENTER
                addView(sign)
                addView(count)
            }
            count.setPaddingRelative(context.size(R.dimen.space_hair), 0, 0, 0)
            // As high before the first mark as with its count: nothing moves under the finger that notes it.
            line.minimumHeight = count.apply {
                text = context.getString(R.string.marked_times, ONE_DIGIT)
                measure(MeasureSpec.UNSPECIFIED, MeasureSpec.UNSPECIFIED)
            }.measuredHeight
            addView(line, LayoutParams(LayoutParams.WRAP_CONTENT, LayoutParams.WRAP_CONTENT))
            label.textAlignment = View.TEXT_ALIGNMENT_CENTER
            addView(label, column())
            for (part in listOf(label, count)) part.importantForAccessibility = View.IMPORTANT_FOR_ACCESSIBILITY_NO
        }

        fun bind(mark: MarkButton) {
            val colour = context.role(if (mark.enabled) R.attr.action else R.attr.inkQuiet)
            val times = mark.count.toInt()
            tag = mark.label
            isEnabled = mark.enabled
            contentDescription = context.getString(R.string.mark_spoken, mark.label)
            sign.put(mark.icon.drawable, colour)
            label.put(mark.label)
            count.put(if (times == 0) null else context.getString(R.string.marked_times, times))
            for (part in listOf(label, count)) part.ink(colour)
            background = ground(mark.enabled)
            setOnClickListener { onMark(mark.kind) }
            isClickable = mark.enabled
        }

        /** Room for its sign and a count, there also before the first: nothing moves under the finger that notes it. */
        private fun signAndCount(): Int {
            val most = listOf(count.text, context.getString(R.string.marked_times, ONE_DIGIT)).maxOf { Layout.getDesiredWidth(it, count.paint) }
            return sign.measuredWidth + count.paddingStart + ceil(most).toInt()
        }

        /** Asks for its longest word and no more, and gives that the room: four in a row are seen and hit at a glance. */
        override fun onMeasure(widthSpec: Int, heightSpec: Int) {
            val asked = MeasureSpec.getMode(widthSpec) == MeasureSpec.UNSPECIFIED
            super.onMeasure(widthSpec, heightSpec)
            val words = maxOf(label.longestWord().toInt() + 1, signAndCount())
            val least = maxOf(minimumWidth, words + paddingLeft + paddingRight)
            if (asked) setMeasuredDimension(least, measuredHeight)
        }

        private fun ground(enabled: Boolean) = context.slip(
            context.role(if (enabled) R.attr.leaf else R.attr.paper),
            context.role(if (enabled) R.attr.action else R.attr.rule),
            context.size(R.dimen.line),
            if (enabled) 0f else context.size(R.dimen.line) * BROKEN,
        ).let { up ->
            val down = context.slip(
                context.role(R.attr.leaf), context.role(R.attr.actionPressed), context.size(R.dimen.line) * 2,
            )
            pressed(down, up)
        }

        override fun onInitializeAccessibilityNodeInfo(info: AccessibilityNodeInfo) {
            super.onInitializeAccessibilityNodeInfo(info)
            info.className = Button::class.java.name
        }
    }

    private companion object {
        const val ACROSS = 4
        const val BROKEN = 3f
        const val ONE_DIGIT = 9
    }
}
