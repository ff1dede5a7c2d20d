package org.liftgate.shell.look

import android.content.Context
import android.text.SpannableStringBuilder
import android.text.Spanned
import android.text.style.AbsoluteSizeSpan
import android.text.style.ForegroundColorSpan
import android.text.style.TypefaceSpan
import org.liftgate.R

/** A big value with its small unit beside it, as one text, so that it wraps at large type instead of being cut. */
fun Context.quantity(value: String, unit: String): CharSequence {
    if (unit.isEmpty()) return value
    val text = SpannableStringBuilder(value)
    val from = text.length
    text.append(' ').append(unit)
    fun mark(span: Any) = text.setSpan(span, from, text.length, Spanned.SPAN_EXCLUSIVE_EXCLUSIVE)
    mark(AbsoluteSizeSpan(size(R.dimen.type_unit)))
    mark(TypefaceSpan("sans-serif"))
    mark(ForegroundColorSpan(role(R.attr.inkQuiet)))
    return text
}
