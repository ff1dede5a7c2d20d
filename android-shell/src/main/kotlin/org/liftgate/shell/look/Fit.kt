package org.liftgate.shell.look

import android.content.Context
import android.text.Layout
import android.util.TypedValue
import android.widget.TextView

/** Width of the longest word that this text shows, in pixels, at its present size. */
fun TextView.longestWord(): Float {
    var from = 0
    var longest = 0f
    while (from <= text.length) {
        val to = text.indexOf(' ', from).let { if (it < 0) text.length else it }
        // With its spans: a unit is smaller than its value.
        longest = maxOf(longest, Layout.getDesiredWidth(text, from, to, paint))
        from = to + 1
    }
    return longest
}

/** Sets [fullPx] as the size of the letters, or less where the longest word would not fit into [wide] pixels. */
fun TextView.fitWords(fullPx: Float, wide: Int) {
    setTextSize(TypedValue.COMPLEX_UNIT_PX, fullPx)
    val longest = longestWord()
    if (longest > wide) setTextSize(TypedValue.COMPLEX_UNIT_PX, fullPx * (wide - 1) / longest)
}

/** A text whose letters give way, from [full] downwards, where its longest word would not fit into the width there is. */
class FittedText(context: Context, style: Int, private val full: Int) : TextView(context, null, 0, style) {
    override fun onMeasure(widthSpec: Int, heightSpec: Int) {
        val wide = MeasureSpec.getSize(widthSpec) - totalPaddingLeft - totalPaddingRight
        if (MeasureSpec.getMode(widthSpec) != MeasureSpec.UNSPECIFIED) fitWords(context.size(full).toFloat(), wide)
        super.onMeasure(widthSpec, heightSpec)
    }
}
