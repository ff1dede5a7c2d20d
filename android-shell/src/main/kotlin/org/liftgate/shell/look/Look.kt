package org.liftgate.shell.look

import android.app.Activity
import android.content.Context
import android.content.res.ColorStateList
import android.graphics.drawable.Drawable
import android.graphics.drawable.GradientDrawable
import android.graphics.drawable.StateListDrawable
import android.view.View
import android.view.ViewGroup
import android.widget.ImageView
import android.widget.LinearLayout
import android.widget.TextView
import java.util.WeakHashMap
import org.liftgate.R

/** The colour that the theme gives to a role, such as `R.attr.ink`. */
fun Context.role(attr: Int): Int = found(colours, attr) {
    val found = obtainStyledAttributes(intArrayOf(attr))
    try {
        found.getColor(0, 0)
    } finally {
        found.recycle()
    }
}

/** A dimension of the design system in whole pixels. */
fun Context.size(dimen: Int): Int = found(sizes, dimen) { resources.getDimensionPixelSize(dimen) }

/**
 * What was looked up before, by window: every row asks for the same few. A window has one theme and one size of type as long as it
 * lives, since the manifest leaves every change of configuration to a new one. Main thread only.
 */
private val colours = WeakHashMap<Context, MutableMap<Int, Int>>()
private val sizes = WeakHashMap<Context, MutableMap<Int, Int>>()

private inline fun Context.found(known: WeakHashMap<Context, MutableMap<Int, Int>>, id: Int, look: () -> Int): Int {
    if (this !is Activity) return look()
    return known.getOrPut(this) { mutableMapOf() }.getOrPut(id, look)
}

/** A text in one of the styles of the type scale. */
fun Context.text(style: Int): FittedText = FittedText(this, style)

/** An icon of [dimen] size; it is decoration, the words beside it say the same. */
fun Context.icon(dimen: Int): ImageView = ImageView(this).apply {
    layoutParams = LinearLayout.LayoutParams(size(dimen), size(dimen))
    importantForAccessibility = View.IMPORTANT_FOR_ACCESSIBILITY_NO
}

/**
 * Shows [words] as they are set, or takes no room where there are none. A text that is as wide as its place and comes out as high
 * as before asks for no layout of its own accord; whoever fits letters to words or words to a line has to look again all the same.
 */
fun TextView.put(words: CharSequence?) {
    visibility = if (words.isNullOrEmpty()) View.GONE else View.VISIBLE
    val next = if (words is String) context.typeset(words) else words ?: ""
    if (text.toString() == next.toString() && next is String) return
    text = next
    requestLayout()
}

fun TextView.ink(colour: Int) {
    if (currentTextColor != colour) setTextColor(colour)
}

fun ImageView.put(drawable: Int, colour: Int) {
    visibility = if (drawable == 0) View.GONE else View.VISIBLE
    setImageResource(drawable)
    imageTintList = ColorStateList.valueOf(colour)
}

/** Layout parameters in a column: full width, as high as needed, [above] pixels below the one before. */
fun column(above: Int = 0): LinearLayout.LayoutParams = LinearLayout.LayoutParams(
    ViewGroup.LayoutParams.MATCH_PARENT, ViewGroup.LayoutParams.WRAP_CONTENT,
).apply { topMargin = above }

/** Layout parameters in a line: what is left of the width, as high as needed. */
fun rest(): LinearLayout.LayoutParams =
    LinearLayout.LayoutParams(0, ViewGroup.LayoutParams.WRAP_CONTENT, 1f)

/** A slip of paper, or a field of colour, with an outline of [line] pixels. */
fun Context.slip(fill: Int, outline: Int, line: Int, dash: Float = 0f): GradientDrawable = GradientDrawable().apply {
    cornerRadius = size(R.dimen.corner).toFloat()
    setColor(fill)
    if (line > 0) setStroke(line, outline, dash, dash)
}

/** One look while a finger or a key is on it, another otherwise. */
fun pressed(down: Drawable, up: Drawable): StateListDrawable = StateListDrawable().apply {
    addState(intArrayOf(android.R.attr.state_pressed), down)
    addState(intArrayOf(android.R.attr.state_focused), down)
    addState(intArrayOf(), up)
}
