package org.liftgate.season

import android.graphics.Bitmap
import java.io.File
import java.util.concurrent.Executors
import java.util.concurrent.Future
import org.liftgate.onjvm.Png
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

    /** Drawing is the main thread's; writing the files is not, and takes as long again. */
    private val writer = Executors.newSingleThreadExecutor()
    private val written = mutableListOf<Future<*>>()

    /** Takes the screen in view, scrolled as it is. Each name is taken once; later calls for it do nothing. */
    fun take(name: String, caption: String) {
        if (shots.none { it.name.endsWith("-$name") }) shoot(name, caption) {}
    }

    /** Takes what the app answers to [act], which is done in each theme: a window opened anew does not show it again. */
    fun takeAnswer(name: String, caption: String, act: () -> Unit) = shoot(name, caption) {
        act()
        phone.wait(UNPRESSED_MS)
    }

    private fun shoot(name: String, caption: String, before: () -> Unit) {
        val numbered = "%02d-%s".format(shots.size + 1, name)
        val inUse = app().workshop
        var title = ""
        // The window stays in the theme that was taken last: a theme wants a window made anew, which costs more than all else here.
        for (workshop in listOf(inUse, !inUse)) {
            phone.theme(workshop)
            before()
            title = phone.words().take(2).joinToString(": ")
            write(phone.drawn(), File(into, "$numbered-${if (workshop) "workshop" else "field"}.png"))
        }
        shots += Shot(numbered, title, caption, day)
    }

    private fun write(window: Bitmap, file: File) {
        written += writer.submit {
            file.writeBytes(Png.of(window))
            check(file.length() > SMALLEST_BYTES) { "$file was not drawn" }
        }
    }

    /** Waits until every picture is on the disk; fails where one is not. */
    fun finish() {
        written.forEach { it.get() }
        writer.shutdown()
    }

    private fun app() = RuntimeEnvironment.getApplication() as LiftgateApp

    private companion object {
        /** By then a control that was touched looks as it does at rest. */
        const val UNPRESSED_MS = 400L

        /** A window of one colour compresses to less than this. */
        const val SMALLEST_BYTES = 8_000L
    }
}
