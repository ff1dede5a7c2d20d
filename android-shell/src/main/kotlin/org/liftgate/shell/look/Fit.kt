package org.liftgate.shell.look

import android.annotation.SuppressLint
import android.content.Context
import android.text.Layout
import android.text.TextPaint
import android.util.TypedValue
import android.widget.TextView

/**
 * A text whose letters give way, from the size of its style downwards, where its longest word would not fit into the width there
 * is: at large type in a narrow place no word is broken in two.
 */
@SuppressLint("ViewConstructor")
open class FittedText(context: Context, style: Int) : TextView(context, null, 0, style) {
    private var fullPx = textSize

    override fun setTextAppearance(style: Int) {
        super.setTextAppearance(style)
        fullPx = textSize
    }

    /** Width of the longest word that it shows, in pixels, with its letters at their full size. */
    fun longestWord(): Float = longestWord(letters(fullPx))

    private fun longestWord(letters: TextPaint): Float {
        var from = 0
        var longest = 0f
        while (from <= text.length) {
            val to = (from until text.length).firstOrNull { text[it] == ' ' || text[it] == MAY_BREAK } ?: text.length
            // With its spans: a unit is smaller than its value.
            longest = maxOf(longest, Layout.getDesiredWidth(text, from, to, letters))
            from = to + 1
        }
        return longest
    }

    /** Width of all its words on one line, in pixels, with its letters at their full size. */
    fun wholeLine(): Float = Layout.getDesiredWidth(text, letters(fullPx))

    /** The same of other [words] in its place. */
    fun widthOf(words: String): Float = Layout.getDesiredWidth(words, letters(fullPx))

    private fun letters(px: Float) = if (textSize == px) paint else TextPaint(paint).apply { textSize = px }

    override fun onMeasure(widthSpec: Int, heightSpec: Int) {
        val asked = MeasureSpec.getMode(widthSpec) == MeasureSpec.UNSPECIFIED
        val wide = MeasureSpec.getSize(widthSpec) - totalPaddingLeft - totalPaddingRight
        val longest = if (asked) 0f else longestWord()
        var size = if (longest > wide && wide > 1) fullPx * (wide - 1) / longest else fullPx
        // Letters are hinted: they do not give way quite in proportion to their size.
        while (size < fullPx && size > FINEST_PX && longestWord(letters(size)) > wide - 1) size -= FINEST_PX
        if (size != textSize) setTextSize(TypedValue.COMPLEX_UNIT_PX, size)
        super.onMeasure(widthSpec, heightSpec)
    }

    private companion object {
        /** A step in which letters give way. */
        const val FINEST_PX = 0.25f
    }
}
