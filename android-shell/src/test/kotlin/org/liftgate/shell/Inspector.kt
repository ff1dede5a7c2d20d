package org.liftgate.shell

import android.graphics.Bitmap
import android.graphics.Color
import android.graphics.Rect
import android.graphics.RectF
import android.view.View
import android.view.ViewGroup
import android.widget.EditText
import android.widget.ScrollView
import android.widget.TextView
import kotlin.math.pow
import org.liftgate.R
import org.liftgate.shell.blocks.PictureView

/** Measures a drawn window against the project's budgets and says in words where it falls short. */
class Inspector(private val phone: Phone) {
    private val density = phone.activity.resources.displayMetrics.density
    private val targetPx = phone.activity.resources.getDimensionPixelSize(R.dimen.target)

    /** Everything on the screen that is cut, out of the window, too small to hit or too near to another target. */
    fun layoutFaults(): List<String> =
        outOfFirstSight() + cutTexts() + tornUnits() + outside() + overlaps() + labelFaults() + smallTargets() + crowdedTargets() + beyondReach()

    private val shown get() = phone.shown(phone.decor).toList()

    /** What a person must see without moving anything: the main action, and beside it the way to take the last thing back. */
    fun outOfFirstSight(): List<String> = listOf(R.id.main_action, R.id.undo).mapNotNull { id ->
        val view = phone.decor.findViewById<View>(id)?.takeIf { it.isShown && it.height > 0 } ?: return@mapNotNull null
        val seen = Rect()
        val high = if (view.getGlobalVisibleRect(seen)) seen.height() else 0
        // One with a long reason on it may be higher than all the room that there is: it fills that, and begins in it.
        val sheet = generateSequence(view.parent) { it.parent }.filterIsInstance<ScrollView>().firstOrNull()
        val room = minOf(view.height, sheet?.height ?: view.height)
        val begins = sheet == null || place(view).top >= place(sheet).top
        if (high < room || !begins) "${name(view)} shows $high of its ${view.height} px before anything is moved" else null
    }

    /** The strip that takes the last thing back, where it is more than one line high. */
    fun tallStrip(): List<String> {
        val strip = phone.decor.findViewById<View>(R.id.undo)?.takeIf { it.isShown } ?: return emptyList()
        val texts = phone.shown(strip).filterIsInstance<TextView>().filter { it.text.isNotBlank() }.toList()
        val tall = texts.filter { it.lineCount > 1 }.map { "“${it.text}” takes ${it.lineCount} lines of the strip" }
        val below = texts.zipWithNext().filter { (one, next) -> place(next).top >= place(one).bottom }
        return tall + below.map { (one, next) -> "“${next.text}” stands below “${one.text}” in the strip" }
    }

    /** Texts that do not fit in their own view, whole lines and whole words. */
    fun cutTexts(): List<String> = shown.filterIsInstance<TextView>().filter { it.text.isNotEmpty() }.mapNotNull { view ->
        val layout = view.layout ?: return@mapNotNull "“${view.text}” was not laid out"
        val wide = view.width - view.totalPaddingLeft - view.totalPaddingRight
        val high = view.height - view.totalPaddingTop - view.totalPaddingBottom
        val widest = (0 until layout.lineCount).maxOf { layout.getLineMax(it) }
        val broken = (0 until layout.lineCount - 1).any { line ->
            val end = layout.getLineEnd(line)
            end in 1 until view.text.length && view.text[end - 1].isLetter() && view.text[end].isLetter()
        }
        when {
            layout.height > high + 1 -> "“${view.text}” needs ${layout.height} px of height and has $high"
            widest > wide + 1 -> "“${view.text}” needs $widest px of width and has $wide"
            broken && view !is EditText -> "“${view.text}” is broken inside a word, at ${view.textSize} px in a width of $wide"
            (0 until layout.lineCount).any { layout.getEllipsisCount(it) > 0 } -> "“${view.text}” is cut with dots"
            else -> null
        }
    }

    /** Numbers that end a line while their unit begins the next, and units that are torn at their stroke. */
    private fun tornUnits(): List<String> = shown.filterIsInstance<TextView>().filter { it !is EditText }.mapNotNull { view ->
        val layout = view.layout ?: return@mapNotNull null
        val torn = (0 until layout.lineCount - 1).map(layout::getLineEnd).firstOrNull { end ->
            val before = view.text.subSequence(0, end).trimEnd()
            val after = view.text.subSequence(end, view.text.length)
            before.lastOrNull()?.isDigit() == true && UNIT_AHEAD.containsMatchIn(after) ||
                before.lastOrNull() == '/' && UNIT_UNDER.containsMatchIn(after)
        }
        torn?.let { "“${view.text}” tears a number from its unit at $it" }
    }

    /** Texts that lie on one another. */
    fun overlaps(): List<String> {
        val texts = shown.filterIsInstance<TextView>().filter { it.text.isNotBlank() && it.width > 0 && it.height > 0 }
        val places = texts.map { it to place(it) }
        return places.flatMapIndexed { i, (one, at) ->
            places.drop(i + 1).filter { (other, there) -> sameSheet(one, other) && Rect(at).run { intersect(there) } }
                .map { (other, _) -> "“${one.text}” and “${other.text}” lie on one another" }
        }
    }

    /** Words of drawings that stick out of their drawing or lie on one another. */
    private fun labelFaults(): List<String> = shown.filterIsInstance<PictureView>().flatMap { view ->
        val places = view.labelPlaces()
        val out = places.filter { (_, at) -> at.left < -1 || at.top < -1 || at.right > view.width + 1 || at.bottom > view.height + 1 }
            .map { (words, at) -> "“$words” sticks out of its drawing of ${view.width} by ${view.height}: $at" }
        out + places.flatMapIndexed { i, (words, at) ->
            places.drop(i + 1).filter { (_, there) -> RectF.intersects(at, there) }.map { (other, _) -> "“$words” and “$other” lie on one another in a drawing" }
        }
    }

    /** Targets whose middle no scrolling brings into sight. */
    fun beyondReach(): List<String> = phone.targets().filter { view ->
        phone.scrollTo(view)
        val seen = Rect()
        val at = place(view)
        !view.getGlobalVisibleRect(seen) || !seen.contains(at.centerX(), at.centerY())
    }.map { "${name(it)} cannot be brought into sight" }

    /** Controls that say nothing to a screen reader, and fields that do not say what they are for. */
    fun unspoken(): List<String> = phone.targets().mapNotNull { view ->
        when {
            view is EditText -> {
                val label = shown.filterIsInstance<TextView>().firstOrNull { it.labelFor == view.id }
                if (label == null) "the field with “${view.text}” has no label" else null
            }
            view.contentDescription.isNullOrBlank() -> "${name(view)} says nothing to a screen reader"
            else -> null
        }
    }

    /** Views that stick out of the view that holds them, unless that one scrolls. */
    fun outside(): List<String> = shown.filter { it.parent is ViewGroup && it.parent !is ScrollView }.mapNotNull { view ->
        val parent = view.parent as ViewGroup
        val out = view.left < 0 || view.top < 0 || view.right > parent.width || view.bottom > parent.height
        if (out && view.width > 0 && view.height > 0) "${name(view)} sticks out of ${name(parent)}" else null
    }

    fun smallTargets(): List<String> = phone.targets().filter { it.width < targetPx || it.height < targetPx }
        .map { "${name(it)} is ${it.width / density} by ${it.height / density} dp" }

    /** Pairs of targets nearer than 8 dp that do not hold one another. */
    fun crowdedTargets(): List<String> {
        val gap = phone.activity.resources.getDimensionPixelSize(R.dimen.target_gap)
        val all = phone.targets()
        return all.flatMapIndexed { i, one ->
            all.drop(i + 1).filter { !holds(one, it) && !holds(it, one) && sameSheet(one, it) }
                .filter { distance(place(one), place(it)) < gap }
                .map { "${name(one)} and ${name(it)} are ${distance(place(one), place(it)) / density} dp apart" }
        }
    }

    /** The page scrolls under the foot, so only targets on the same sheet can crowd each other. */
    private fun sameSheet(one: View, other: View) = sheet(one) == sheet(other)

    private fun sheet(view: View) = generateSequence(view.parent) { it.parent }.firstOrNull { it is ScrollView }

    private fun holds(one: View, other: View) = generateSequence(other.parent) { it.parent }.any { it === one }

    private fun place(view: View): Rect {
        val at = IntArray(2).also(view::getLocationInWindow)
        return Rect(at[0], at[1], at[0] + view.width, at[1] + view.height)
    }

    private fun distance(one: Rect, other: Rect): Int = maxOf(
        maxOf(one.left - other.right, other.left - one.right),
        maxOf(one.top - other.bottom, other.top - one.bottom),
    )

    private fun name(view: View): String = phone.labels(view).firstOrNull()?.let { "“$it”" } ?: view.javaClass.simpleName

    /** Text whose contrast, measured from the drawn pixels, is below [least], with the ratio that was measured. */
    fun faintTexts(drawn: Bitmap, least: (TextView) -> Double): List<String> =
        shown.filterIsInstance<TextView>().filter { it.text.isNotBlank() }.mapNotNull { view ->
            val seen = Rect()
            if (!view.getGlobalVisibleRect(seen) || seen.height() < view.height) return@mapNotNull null
            val ratio = contrast(drawn, seen)
            if (ratio < least(view)) "“${view.text}” stands out by %.1f:1".format(ratio) else null
        }

    /** The highest contrast of any pixel in [part] with the commonest colour there. */
    private fun contrast(drawn: Bitmap, part: Rect): Double {
        val pixels = IntArray(part.width() * part.height())
        drawn.getPixels(pixels, 0, part.width(), part.left, part.top, part.width(), part.height())
        val counts = HashMap<Int, Int>()
        pixels.forEach { counts.merge(it, 1, Int::plus) }
        val ground = counts.maxBy { it.value }.key
        return counts.keys.maxOf { ratio(it, ground) }
    }

    /** Words of drawings whose contrast, measured from the drawn pixels, is below [least]. */
    fun faintLabels(drawn: Bitmap, least: Double): List<String> = shown.filterIsInstance<PictureView>().flatMap { view ->
        val seen = Rect()
        if (!view.getGlobalVisibleRect(seen) || seen.height() < view.height) return@flatMap emptyList<String>()
        view.labelPlaces().mapNotNull { (words, at) ->
            val part = Rect(seen.left + at.left.toInt(), seen.top + at.top.toInt(), seen.left + at.right.toInt(), seen.top + at.bottom.toInt())
            if (!part.intersect(seen) || part.width() < 1 || part.height() < 1) return@mapNotNull null
            val ratio = contrast(drawn, part)
            if (ratio < least) "“$words” in a drawing stands out by %.1f:1".format(ratio) else null
        }
    }

    companion object {
        /** What can only be a unit, at the beginning of a line. */
        private val UNIT_AHEAD = Regex("^(mm|cm|m|kg|g|mAh|Ah|V|A|W|Wh|rpm|U/min|Hz|s|min|h|°C|°F|°|%|mV|mΩ|N|Nm|N·m|g·m|in|ft|lb|oz)(?![\\p{L}\\p{Nd}])")

        /** What stands under a unit's stroke. */
        private val UNIT_UNDER = Regex("^(min|s|h|V|W)(?![\\p{L}\\p{Nd}])")

        /** Contrast ratio of two colours, 1 to 21, as WCAG 2.2 defines it. */
        fun ratio(one: Int, other: Int): Double {
            val (dark, light) = listOf(luminance(one), luminance(other)).sorted()
            return (light + 0.05) / (dark + 0.05)
        }

        /** Relative luminance as WCAG 2.2 defines it. */
        private fun luminance(colour: Int): Double {
            fun part(value: Int): Double = (value / 255.0).let {
                if (it <= 0.04045) it / 12.92 else ((it + 0.055) / 1.055).pow(2.4)
            }
            return 0.2126 * part(Color.red(colour)) + 0.7152 * part(Color.green(colour)) + 0.0722 * part(Color.blue(colour))
        }
    }
}
