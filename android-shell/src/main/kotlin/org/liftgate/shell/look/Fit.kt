package org.liftgate.shell.look

import android.util.TypedValue
import android.widget.TextView

/** Width of the longest word that this text shows, in pixels, at its present size. */
fun TextView.longestWord(): Float = text.split(' ').maxOf { paint.measureText(it) }

/** Sets [fullPx] as the size of the letters, or less where the longest word would not fit into [wide] pixels. */
fun TextView.fitWords(fullPx: Float, wide: Int) {
    setTextSize(TypedValue.COMPLEX_UNIT_PX, fullPx)
    val longest = longestWord()
    if (longest > wide) setTextSize(TypedValue.COMPLEX_UNIT_PX, fullPx * wide / longest)
}
