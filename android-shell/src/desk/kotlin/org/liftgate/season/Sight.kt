package org.liftgate.season

import android.graphics.Rect
import android.view.View
import android.widget.EditText
import android.widget.ScrollView
import android.widget.TextView
import org.liftgate.R
import org.liftgate.shell.Phone
import org.liftgate.shell.blocks.PictureView
import org.liftgate.shell.read

/** A row as a person reads it: its state, what it is about, and the rest. */
data class SeenRow(val state: String, val title: String)

/** What can be read off the window in view, by nothing but its words and where they stand. */
class Sight(private val phone: Phone) {
    /** The screen's title. */
    fun title(): String = read(texts().first { it.isAccessibilityHeading })

    /** The board's sentence. */
    fun verdict(): String = phone.words().firstOrNull { " between " in it }
        ?: throw AssertionError("no sentence of the board in sight, but:\n${phone.words().joinToString("\n")}")

    /** What the app said of the last thing recorded, in the bar that takes it back. */
    fun said(): String? {
        val inFull = phone.decor.findViewById<TextView>(R.id.said)?.takeIf { it.isShown && it.text.isNotBlank() }
        if (inFull != null) return read(inFull)
        val bar = phone.decor.findViewById<View>(R.id.undo)?.takeIf { it.isShown } ?: return null
        // The first text is the control's own.
        return phone.shown(bar).filterIsInstance<TextView>().map(::read).filter { it.isNotBlank() }.drop(1).firstOrNull()
    }

    /** The control whose words begin with one of [verbs], with the quieter line on it. */
    fun action(verbs: Set<String>): Pair<String, String> {
        val found = phone.targets().map(phone::labels).firstOrNull { it.firstOrNull() in verbs }
            ?: throw AssertionError("no next action in sight, but:\n${phone.words().joinToString("\n")}")
        return found[0] to found.getOrElse(1) { "" }
    }

    /** The whole label of the one control whose words begin with [start]. */
    fun control(start: String): String = phone.targets().flatMap(phone::labels).firstOrNull { it.startsWith(start) }
        ?: throw AssertionError("nothing to tap begins with “$start”, but:\n${phone.words().joinToString("\n")}")

    fun hasControl(start: String): Boolean = phone.targets().flatMap(phone::labels).any { it.startsWith(start) }

    fun canTap(label: String): Boolean = phone.targets().any { label in phone.labels(it) }

    /** The state that the row about [title] shows. */
    fun state(title: String): String = rows().firstOrNull { it.title == title }?.state
        ?: throw AssertionError("no row about “$title” in sight, but:\n${phone.words().joinToString("\n")}")

    fun rows(): List<SeenRow> = phone.targets().map(phone::labels).filter { it.size > 2 }.map { SeenRow(it[0], it[1]) }

    /** The rows of the page under the heading [heading], as far as the next one. */
    fun rowsUnder(heading: String): List<SeenRow> {
        var under = false
        val found = mutableListOf<SeenRow>()
        for (view in phone.shown(phone.decor.findViewById(R.id.page))) {
            if (view is TextView && view.isAccessibilityHeading) under = read(view) == heading
            if (under && view.isClickable && phone.labels(view).size > 2) {
                found += phone.labels(view).let { SeenRow(it[0], it[1]) }
            }
        }
        return found
    }

    /** The checks that the card in view wants first. */
    fun dueOnCard(): List<String> = rowsUnder("Due before this flight").map { it.title }

    /** The one control that says [words] to a screen reader, or begins with them. */
    fun spoken(words: String): String? = phone.targets().mapNotNull { it.contentDescription?.toString() }
        .firstOrNull { it == words || it.startsWith("$words. ") }

    /** The texts that follow the heading [heading]. */
    fun after(heading: String): List<String> = phone.words().dropWhile { it != heading }.drop(1)

    /** Whether [option] is the one in force, or one of those in force, of the choice called [label]. */
    fun isChosen(label: String, option: String): Boolean = phone.shown(phone.decor)
        .filter { it.tag == label && !it.isClickable }.flatMap(phone::shown).any { it.isSelected && option in phone.labels(it) }

    /** Scrolls until the screen's drawing, or else the sentence that the check comes to, stands where it can be seen. */
    fun revealDrawing() {
        val page = phone.decor.findViewById<ScrollView>(R.id.page)
        val shown = phone.shown(page).toList()
        val sought = shown.firstOrNull { it is PictureView }
            ?: shown.filterIsInstance<TextView>().maxBy { it.textSize * if (it.isAccessibilityHeading) 0 else 1 }
        val place = Rect(0, 0, sought.width, sought.height).also { page.offsetDescendantRectToMyCoords(sought, it) }
        page.scrollTo(0, maxOf(0, minOf(place.top - page.height / 4, place.bottom - page.height / 2)))
        phone.settle()
    }

    /** What stands in the field called [label]. */
    fun field(label: String): String {
        val block = phone.shown(phone.decor).first { it.tag == label && it !is EditText }
        return phone.shown(block).filterIsInstance<EditText>().first().text.toString()
    }

    private fun texts() = phone.shown(phone.decor).filterIsInstance<TextView>()
}
