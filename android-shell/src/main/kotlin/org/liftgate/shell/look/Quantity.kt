package org.liftgate.shell.look

import android.content.Context
import android.text.SpannableStringBuilder
import android.text.Spanned
import android.text.style.RelativeSizeSpan
import android.text.style.ForegroundColorSpan
import android.text.style.TypefaceSpan
import org.liftgate.R

/** A big value with its small unit beside it, as one text that is never parted. */
fun Context.quantity(value: String, unit: String): CharSequence {
    if (unit.isEmpty()) return value
    val text = SpannableStringBuilder(value)
    val from = text.length
    text.append(NO_BREAK).append(typeset(unit))
    fun mark(span: Any) = text.setSpan(span, from, text.length, Spanned.SPAN_EXCLUSIVE_EXCLUSIVE)
    // In proportion, so that both grow smaller together where one line is too short for them.
    mark(RelativeSizeSpan(size(R.dimen.type_unit) / size(R.dimen.type_value).toFloat()))
    mark(TypefaceSpan("sans-serif"))
    mark(ForegroundColorSpan(role(R.attr.inkQuiet)))
    return text
}
