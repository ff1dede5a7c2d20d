package org.liftgate.bench

import android.graphics.Bitmap
import android.graphics.Canvas
import android.graphics.Color
import java.io.File
import java.nio.file.Files
import org.liftgate.onjvm.Arguments
import org.liftgate.onjvm.OnAndroid
import org.liftgate.onjvm.Png
import org.liftgate.onjvm.Program
import org.liftgate.shell.HandClock
import org.liftgate.shell.Phone

/**
 * What a screen costs on this computer, part by part, as rows for the table of `tests/bench`: `--journal` is a journal, `--moment` a file
 * that tells when it was left, as the walked journals of the tests have both.
 */
object BenchMain {
    @JvmStatic
    fun main(arguments: Array<String>) = OnAndroid.main(BenchProgram::class.java, arguments)
}

class BenchProgram : Program {
    override fun run(arguments: List<String>) {
        val told = Arguments(arguments)
        val scratch = Files.createTempDirectory("liftgate-bench").toFile()
        try {
            val journal = File(scratch, "liftgate.db").also { File(told.get("journal")).copyTo(it) }
            val (wall, offset, running, boot) = File(told.get("moment")).readText().trim().split(' ')
            val clock = HandClock(wall.toLong(), offset.toInt(), running.toLong(), boot)
            Phone(scratch, clock, journal).use { phone ->
                start(phone)
                SCREENS.forEach { (name, way) -> screen(phone, name, way) }
            }
        } finally {
            scratch.deleteRecursively()
        }
    }

    /** From the tap on the app's icon to the first drawn frame: in this process for the first time, so with every class still to load. */
    private fun start(phone: Phone) {
        val from = System.nanoTime()
        phone.launch()
        val laid = System.nanoTime()
        phone.drawn()
        val drawn = System.nanoTime()
        val all = drawn - from
        val core = phone.waitedNs
        for ((part, ns) in listOf("waiting for the core" to core, "classes, layout" to laid - from - core, "drawing" to drawn - laid)) {
            row("start to first frame: $part", ns, "the whole of it", all, null)
        }
    }

    private fun screen(phone: Phone, name: String, way: List<String>) {
        while (phone.takesBack()) phone.back()
        way.forEach(phone::tap)
        val window = phone.drawn()
        val again = measured { again(phone) }
        val (core, layout) = middle(again.map { it.first }) to middle(again.map { it.second })
        val drawing = middle { timed { phone.drawn() } }
        val ground = Bitmap.createBitmap(window.width, window.height, Bitmap.Config.ARGB_8888)
        val plain = middle { timed { repeat(FILLS) { Canvas(ground).drawColor(Color.rgb(it, it, it)) } } } / FILLS
        row("$name: waiting for the core", core, "drawing it", drawing, TOUCH_MS)
        row("$name: laying it out", layout, "drawing it", drawing, null)
        row("$name: drawing it", drawing, "filling the window with one colour", plain, FRAME_MS)
        row("$name: as a PNG file", middle { timed { Png.of(window) } }, "drawing it", drawing, null)
    }

    /** Asks the core for the screen in view again and shows what it says: what was waited for the core, and the rest, which was laying out. */
    private fun again(phone: Phone): Pair<Long, Long> {
        val before = phone.waitedNs
        val all = timed { phone.lookAgain() }
        val waited = phone.waitedNs - before
        return waited to all - waited
    }

    private fun timed(work: () -> Unit): Long = System.nanoTime().let { from ->
        work()
        System.nanoTime() - from
    }

    private fun <T> measured(measure: () -> T): List<T> {
        repeat(WARM) { measure() }
        return List(TIMES) { measure() }
    }

    private fun middle(times: List<Long>) = times.sorted()[TIMES / 2]

    private fun middle(measure: () -> Long) = middle(measured(measure))

    private fun row(what: String, ns: Long, anchor: String, beside: Long, budgetMs: Double?) {
        val (value, other) = ns / NS_A_MS to beside / NS_A_MS
        val held = if (budgetMs == null) "" else if (value <= budgetMs) "held" else "over"
        println("row\t$what\t%.3f\tms\t$anchor\t%.3f\t%.2f\t${budgetMs ?: ""}\t$held".format(java.util.Locale.ROOT, value, other, value / other))
    }

    private companion object {
        /** Screens by what is touched on the way from the board. */
        val SCREENS = listOf(
            "board" to emptyList(),
            "card" to listOf("Draw up the card"),
            "aircraft" to listOf("Aircraft"),
            "trends" to listOf("Aircraft", "Trends over its life"),
            "findings" to listOf("Findings"),
            "journal" to listOf("Journal"),
            "stage" to listOf("Hover ladder"),
        )
        const val NS_A_MS = 1e6
        const val FRAME_MS = 16.0
        const val TOUCH_MS = 5.0
        const val WARM = 5
        const val TIMES = 9
        const val FILLS = 20
    }
}
