package org.liftgate.shell.blocks

import android.content.Context
import android.graphics.drawable.Drawable
import android.graphics.drawable.LayerDrawable
import android.view.Gravity
import android.view.View
import android.view.accessibility.AccessibilityNodeInfo
import android.widget.Button
import android.widget.LinearLayout
import android.widget.TextView
import org.liftgate.R
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
import uniffi.liftgate.Weight

/** Words beside an icon, a narrow tile with the icon above, or the icon alone where its place says what it does. */
enum class Shape { WORDS, TILE, ICON }

/**
 * Something that the pilot can do. A field of the action colour where it is the main thing, an outline of that
 * colour otherwise, a broken outline and the reason where it cannot be done now.
 */
class ControlView(
    context: Context,
    private val shape: Shape = Shape.WORDS,
    private val onTap: (Control) -> Unit,
) : LinearLayout(context) {
    private val mark = context.icon(R.dimen.icon)
    private val words = LinearLayout(context).apply { orientation = VERTICAL }
    private val label = context.text(R.style.Text_Action)
    private val detail = context.text(R.style.Text_Label)
    private val reason = context.text(R.style.Text_Label)
    private var control: Control? = null
    private var dressed: Any? = null

    init {
        orientation = if (shape == Shape.TILE) VERTICAL else HORIZONTAL
        gravity = if (shape == Shape.WORDS) Gravity.CENTER_VERTICAL else Gravity.CENTER
        isFocusable = true
        isClickable = true
        val pad = context.size(shape.padding)
        val padHigh = context.size(R.dimen.space_small)
        setPaddingRelative(pad, padHigh, pad, padHigh)
        addView(mark)
        for (part in listOf(label, detail, reason)) {
            part.importantForAccessibility = View.IMPORTANT_FOR_ACCESSIBILITY_NO
            words.addView(part, column())
            if (shape == Shape.TILE) centre(part)
        }
        if (shape == Shape.WORDS) addView(words, rest())
        if (shape == Shape.TILE) addView(words, column())
        setOnClickListener { control?.let(onTap) }
    }

    fun bind(next: Control) {
        control = next
        tag = next.label
        setTag(R.id.token, next.token)
        isEnabled = next.enabled
        isSelected = next.chosen
        contentDescription = spoken(next)
        dress(next)
        label.put(next.label)
        detail.put(next.detail)
        reason.put(next.whyNot.takeUnless { next.enabled })
    }

    private fun centre(part: TextView) {
        part.textAlignment = View.TEXT_ALIGNMENT_CENTER
    }

    /** An icon of the shell's own in place of one that the core named. */
    fun picture(drawable: Int) = mark.put(drawable, context.role(R.attr.action))

    private fun spoken(next: Control): String =
        listOfNotNull(next.spoken, next.whyNot.takeUnless { next.enabled }).joinToString(". ")

    private fun dress(next: Control) {
        val look = listOf(next.weight, next.enabled, next.chosen, next.icon)
        if (dressed == look) return
        dressed = look
        val filled = next.enabled && (next.chosen || next.weight == Weight.PRIMARY || next.weight == Weight.FIELD)
        val colour = context.role(
            when {
                filled -> R.attr.onAction
                next.enabled -> R.attr.action
                else -> R.attr.inkQuiet
            },
        )
        val big = next.weight == Weight.FIELD
        label.setTextAppearance(
            when {
                shape == Shape.TILE -> R.style.Text_Strong
                big -> R.style.Text_Action_Field
                else -> R.style.Text_Action
            },
        )
        for (part in listOf(label, detail, reason)) part.ink(colour)
        mark.put(if (next.chosen) R.drawable.ic_tick else next.icon.drawable, colour)
        val side = context.size(if (big) R.dimen.icon_field else R.dimen.icon)
        mark.layoutParams = LayoutParams(side, side).apply {
            if (shape == Shape.WORDS) marginEnd = context.size(R.dimen.space)
        }
        minimumHeight = context.size(next.weight.height)
        minimumWidth = context.size(R.dimen.target)
        background = ground(next, filled)
    }

    private fun ground(next: Control, filled: Boolean): Drawable {
        val action = context.role(R.attr.action)
        val line = context.size(R.dimen.line)
        return when {
            !next.enabled -> context.slip(context.role(R.attr.paper), context.role(R.attr.rule), line, line * BROKEN)
            filled -> pressed(
                context.slip(context.role(R.attr.actionPressed), context.role(R.attr.actionPressed), line),
                context.slip(action, action, line),
            )
            else -> {
                val outline = if (next.weight == Weight.QUIET) context.role(R.attr.rule) else action
                val thin = if (next.weight == Weight.QUIET) context.size(R.dimen.line_hair) else line
                pressed(
                    context.slip(context.role(R.attr.leaf), context.role(R.attr.actionPressed), line * 2),
                    context.slip(context.role(R.attr.leaf), outline, thin),
                )
            }
        }
    }

    /**
     * No word is broken for want of room: at large type in a narrow place the icon, which is decoration, gives way
     * first; then the texts make their letters smaller.
     */
    override fun onMeasure(widthSpec: Int, heightSpec: Int) {
        val asked = MeasureSpec.getMode(widthSpec) == MeasureSpec.UNSPECIFIED
        val wide = MeasureSpec.getSize(widthSpec) - paddingLeft - paddingRight
        if (shape == Shape.WORDS) if (asked) showIcon(control?.icon?.drawable ?: 0) else makeRoom(wide)
        super.onMeasure(widthSpec, heightSpec)
        // A tile asks for its longest word and no more: its lines may break between words.
        if (shape == Shape.TILE && asked) setMeasuredDimension(narrowest(), measuredHeight)
    }

    private fun longestWord() = listOf(label, detail, reason).filter { it.visibility == View.VISIBLE }.maxOf { it.longestWord() }

    private fun narrowest(): Int = maxOf(minimumWidth, longestWord().toInt() + 1 + paddingLeft + paddingRight)

    private fun makeRoom(wide: Int) {
        val shown = control ?: return
        val pictured = shown.chosen || shown.icon.drawable != 0
        val beside = mark.layoutParams.let { it.width + (it as LayoutParams).marginEnd }
        // The tick of what is chosen must not make another line of the words: nothing moves under the finger that chose.
        val whole = label.wholeLine()
        val ticked = shown.chosen && shown.icon.drawable == 0
        val moves = ticked && whole <= wide && whole > wide - beside
        val fits = pictured && longestWord() <= wide - beside && !moves
        mark.visibility = if (fits) View.VISIBLE else View.GONE
        val corner = if (shown.chosen && shown.enabled && !fits) cornerTick else null
        if (foreground !== corner) foreground = corner
    }

    /** What is chosen shows its tick also where there is no room beside the words: small, in the corner that the words leave free. */
    private val cornerTick: Drawable by lazy {
        val inset = context.size(R.dimen.line)
        val side = context.size(R.dimen.space)
        val tick = checkNotNull(context.getDrawable(R.drawable.ic_tick)).mutate().apply { setTint(context.role(R.attr.onAction)) }
        LayerDrawable(arrayOf(tick)).apply {
            setLayerGravity(0, Gravity.TOP or Gravity.END)
            setLayerSize(0, side, side)
            setLayerInset(0, inset, inset, inset, inset)
        }
    }

    /** What is asked for is room for the words and the icon that the core named, chosen or not. */
    private fun showIcon(drawable: Int) {
        mark.visibility = if (drawable == 0) View.GONE else View.VISIBLE
    }

    override fun onInitializeAccessibilityNodeInfo(info: AccessibilityNodeInfo) {
        super.onInitializeAccessibilityNodeInfo(info)
        info.className = Button::class.java.name
        info.isCheckable = control?.chosen == true
        info.isChecked = control?.chosen == true
    }

    private companion object {
        const val BROKEN = 3f
    }
}

private val Shape.padding: Int
    get() = when (this) {
        Shape.WORDS -> R.dimen.space_page
        Shape.TILE -> R.dimen.space_small
        Shape.ICON -> R.dimen.none
    }

private val Weight.height: Int
    get() = when (this) {
        Weight.PRIMARY -> R.dimen.target_primary
        Weight.FIELD -> R.dimen.target_field
        Weight.PLAIN, Weight.QUIET -> R.dimen.target
    }
