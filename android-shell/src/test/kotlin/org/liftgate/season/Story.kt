package org.liftgate.season

import java.io.File
import org.liftgate.shell.Phone

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

    private fun title() = phone.words().take(2).joinToString(": ")

    private companion object {
        /** A window of one colour compresses to less than this. */
        const val SMALLEST_BYTES = 8_000L
    }
}
