package org.liftgate.season

import java.io.File
import org.liftgate.shell.LiftgateApp
import org.liftgate.shell.Phone
import org.robolectric.RuntimeEnvironment

/** What was seen, line by line. A line is only ever made from words that a screen or the journal showed. */
class Story(private val progress: (String) -> Unit) {
    val lines = mutableListOf<String>()

    fun tell(line: String) {
        lines += line
        progress(line)
    }
}

/** A picture and what it shows. */
class Shot(val name: String, val title: String, val caption: String, val day: String)

/** Pictures of the app's own windows, in both themes, numbered in the order in which they were taken. */
class Album(private val phone: Phone, private val into: File) {
    val shots = mutableListOf<Shot>()
    var day = ""

    /** Takes the screen in view, scrolled as it is. Each name is taken once; later calls for it do nothing. */
    fun take(name: String, caption: String) {
        if (shots.any { it.name.endsWith("-$name") }) return
        val numbered = "%02d-%s".format(shots.size + 1, name)
        phone.picture(numbered, into)
        for (theme in listOf("field", "workshop")) {
            val file = File(into, "$numbered-$theme.png")
            check(file.length() > SMALLEST_BYTES) { "$file was not drawn" }
        }
        shots += Shot(numbered, title(), caption, day)
    }

    /**
     * Takes what the app answers to [act], which a window that is opened anew does not show again: done and drawn once
     * in each theme.
     */
    fun takeAnswer(name: String, caption: String, act: () -> Unit) {
        val numbered = "%02d-%s".format(shots.size + 1, name)
        var title = ""
        for (theme in phone.themes()) {
            act()
            phone.wait(UNPRESSED_MS)
            title = title()
            val file = File(into, "$numbered-$theme.png")
            phone.snapshot(file)
            check(file.length() > SMALLEST_BYTES) { "$file was not drawn" }
        }
        shots += Shot(numbered, title, caption, day)
    }

    /** Both themes, one after the other, the one in use last. */
    private fun Phone.themes(): Sequence<String> = sequence {
        val before = app().workshop
        for (workshop in listOf(!before, before)) {
            theme(workshop)
            yield(if (workshop) "workshop" else "field")
        }
    }

    private fun app() = RuntimeEnvironment.getApplication() as LiftgateApp

    private fun title() = phone.words().take(2).joinToString(": ")

    private companion object {
        /** By then a control that was touched looks as it does at rest. */
        const val UNPRESSED_MS = 400L

        /** A window of one colour compresses to less than this. */
        const val SMALLEST_BYTES = 8_000L
    }
}
