package org.liftgate.shell

import android.net.Uri
import android.view.View
import java.io.ByteArrayInputStream
import java.io.File
import java.io.IOException
import java.io.InputStream
import java.util.Locale
import java.util.concurrent.CountDownLatch
import kotlin.math.sin
import org.junit.Assert.assertEquals
import org.junit.Assert.assertTrue
import org.junit.Rule
import org.junit.Test
import org.junit.rules.TemporaryFolder
import org.junit.runner.RunWith
import org.liftgate.shell.blocks.PictureView
import org.robolectric.RobolectricTestRunner
import org.robolectric.RuntimeEnvironment
import org.robolectric.Shadows.shadowOf

/** A recorder's log on the phone: picked, its columns chosen, its plot seen and moved by fingers, with the Rust core behind it. */
@RunWith(RobolectricTestRunner::class)
class LogTest {
    @get:Rule val folder = TemporaryFolder()
    private val there = Uri.parse("content://documents/hover.csv")

    /** An invented hover of two and a half minutes with a burst to 90 A for a fifth of a second at 80 s. */
    private fun log(): ByteArray = buildString {
        append("Time (s);Voltage [V];Current [A];Rotor [rpm];Spare\n")
        for (row in 0 until 750) {
            val t = row * 0.2
            val a = if (t < 15 || t > 135) 1.0 else if (row == 400) 90.0 else 52 + sin(t)
            append(String.format(Locale.ROOT, "%.1f;%.2f;%.1f;%d;%d\n", t, 50 - 0.02 * a, a, if (t < 137) 1180 else 0, row))
        }
    }.toByteArray()

    /** The same hover, written two hundred times a second for as long: some megabytes. */
    private fun longLog(): ByteArray = buildString {
        append("Time (s);Voltage [V];Current [A];Rotor [rpm];Spare\n")
        for (row in 0 until 200_000) {
            val tenths = row % 10
            append(row / 200).append('.').append(row % 200 + 1000).append(";48.").append(tenths)
            append(if (row < 6000) ";5." else ";52.").append(tenths).append(";1180;").append(row).append('\n')
        }
    }.toByteArray()

    /** A stream that a cloud gives: a few bytes a time, and after [breaksAt] none any more. */
    private class Slow(private val bytes: ByteArray, private val breaksAt: Int) : InputStream() {
        private var at = 0
        override fun read(): Int = throw IOException("by single bytes")
        override fun read(into: ByteArray, from: Int, most: Int): Int {
            if (at >= breaksAt) throw IOException("the net is gone")
            val count = minOf(most, 10_007, bytes.size - at)
            if (count == 0) return -1
            bytes.copyInto(into, from, at, at + count)
            at += count
            return count
        }
    }

    /** A stream whose provider lets its reader wait until it is let go. */
    private class Stuck(private val bytes: ByteArray) : InputStream() {
        val letGo = CountDownLatch(1)
        private var at = 0
        override fun read(): Int = throw IOException("by single bytes")
        override fun read(into: ByteArray, from: Int, most: Int): Int {
            letGo.await()
            val count = minOf(most, bytes.size - at)
            if (count == 0) return -1
            bytes.copyInto(into, from, at, at + count)
            at += count
            return count
        }
    }

    @Test
    fun aProviderThatGivesNothingHoldsNoTouchUp() = service { phone ->
        atTheLog(phone).tap("Pick another log")
        val stuck = Stuck(longLog())
        give(stuck)
        phone.answerPicker(there, await = false)
        try {
            phone.awaits("Taking the file in")
            phone.atOnce { it.tap("Stop").awaits("What it says") }
            // Another file in the meantime is not mixed up with what the first one gives late.
            phone.atOnce { it.tap("Pick another log") }
            give(ByteArrayInputStream(log()))
            phone.answerPicker(there, await = false)
            phone.awaits("Say once what its columns are.")
        } finally {
            stuck.letGo.countDown()
        }
        phone.settle()
        phone.expect("Say once what its columns are.").tap("Rotor [rpm]").choose("Column 4", "Leave out").tap("That is it")
        phone.tap("Attach this log").expect("750 rows")
    }

    @Test
    fun aProviderThatTakesLongToOpenHoldsNoTouchUp() = service { phone ->
        atTheLog(phone).tap("Pick another log")
        val open = CountDownLatch(1)
        shadowOf(RuntimeEnvironment.getApplication().contentResolver).registerInputStreamSupplier(there) {
            open.await()
            ByteArrayInputStream(log())
        }
        phone.answerPicker(there, await = false)
        try {
            phone.atOnce { it.tap("Strom, highest").awaits("Where it comes from") }
            phone.atOnce { it.recreate().awaits("Where it comes from") }
        } finally {
            open.countDown()
        }
        phone.settle()
        phone.expect("Say once what its columns are.")
    }

    private fun give(stream: InputStream) =
        shadowOf(RuntimeEnvironment.getApplication().contentResolver).registerInputStream(there, stream)

    @Test
    fun aLongLogShowsHowFarItIsAndATouchStopsIt() = service { phone ->
        val seen = mutableListOf<String>()
        fun look(name: String) {
            seen += name
            phone.snapshot(File(System.getProperty("liftgate.target"), "gallery/$name.png"))
        }
        val bytes = longLog()
        atTheLog(phone).tap("Pick another log")
        give(Slow(bytes, Int.MAX_VALUE))
        phone.whileItShows("Taking the file in") {
            look("log-arriving")
            phone.tap("Stop")
        }
        phone.answerPicker(there)
        phone.expect("What it says")

        phone.tap("Pick another log")
        give(Slow(bytes, Int.MAX_VALUE))
        phone.whileItShows("Taking the file in") { phone.recreate() }
        phone.answerPicker(there)
        phone.expect("Say once what its columns are.").kill().expect("Say once what its columns are.")
        phone.tap("Rotor [rpm]").choose("Column 4", "Leave out").tap("That is it")
        phone.whileItShows("Reading the log") {
            look("log-reading")
            phone.recreate()
        }
        phone.tap("Attach this log").expect("200000 rows read")
        phone.whileItShows("Draw no plot") { look("log-opening") }
        phone.kill().expect("200000 rows read")
        assertTrue(said(phone), "Current" in said(phone))
        assertEquals(listOf("log-arriving", "log-reading", "log-opening"), seen)
    }

    @Test
    fun aFileThatBreaksOffIsNotTakenForOneThatEnded() = service { phone ->
        atTheLog(phone).tap("Pick another log")
        val bytes = longLog()
        give(Slow(bytes, bytes.size / 2))
        phone.answerPicker(there)
        phone.expect("could not be read to its end").expect("What it says")
    }

    private fun atTheLog(phone: Phone): Phone {
        phone.launch().tap("Journal")
        phone.touch(phone.targets().first { view -> phone.labels(view).any { it.startsWith("Landing") } })
        phone.tap("Log of this flight")
        return phone
    }

    private fun service(work: (Phone) -> Unit) {
        val own = folder.newFolder()
        val walked = Walked("service")
        Phone(own, walked.clock(), journal = walked.copy(own)).use(work)
    }

    private fun plot(phone: Phone): View = phone.shown(phone.decor).single { it is PictureView && it.isClickable }

    private fun said(phone: Phone) = plot(phone).contentDescription.toString().removePrefix("Plot. ")

    @Test
    fun aLogIsPickedItsColumnsChosenAndItsPlotMovedByFingers() = service { phone ->
        atTheLog(phone)
        phone.tap("Pick another log")
        shadowOf(RuntimeEnvironment.getApplication().contentResolver).registerInputStream(there, ByteArrayInputStream(log()))
        phone.answerPicker(there)
        phone.expect("Say once what its columns are.").picture("log-columns", File(System.getProperty("liftgate.target"), "gallery"))
        phone.tap("Spare").choose("Column 5", "Something else").choose("Column 5", "Leave out")
        phone.picture("log-column", File(System.getProperty("liftgate.target"), "gallery")).tap("That is it").tap("Attach this log")
        phone.expect("Log attached: 750 rows of hover.csv")
        assertTrue(said(phone), said(phone).startsWith("0:00 to 2:30: Current 1 to 90 A"))
        phone.picture("log", File(System.getProperty("liftgate.target"), "gallery"))

        // Two fingers ten times as far apart about the middle: a tenth of the time, still with the burst of one sample in it.
        phone.pinch(plot(phone), 0.53f, 60f, 600f)
        val window = Regex("1:1\\d\\.\\d to 1:2\\d\\.\\d: Current .* to 90 A.*")
        assertTrue(said(phone), window.matches(said(phone)))
        phone.expect("Current").kill()
        assertTrue("what is in view outlives the process: ${said(phone)}", window.matches(said(phone)))
        phone.picture("log-closer", File(System.getProperty("liftgate.target"), "gallery"))

        // A touch puts the cursor there.
        phone.tap("All of it")
        phone.touch(plot(phone))
        assertTrue(said(phone), said(phone).startsWith("At 1:15: Current 51.6 A"))
        phone.picture("log-cursor", File(System.getProperty("liftgate.target"), "gallery"))
        phone.configure("+w360dp-h800dp-port", 2f)
        phone.scrollTo(plot(phone))
        phone.picture("log-cursor-200", File(System.getProperty("liftgate.target"), "gallery"))
        phone.configure("+w360dp-h800dp-port", 1f)
        val before = said(phone)
        phone.tap("Cursor on")
        assertTrue(said(phone), said(phone).startsWith("At 1:1") && said(phone) != before)
    }

    @Test
    fun aScreenReaderMovesThePlotByActionsWithWords() = service { phone ->
        atTheLog(phone)
        val info = plot(phone).createAccessibilityNodeInfo()
        val closer = info.actionList.single { it.label == "Plot: half the time" }
        val before = said(phone)
        plot(phone).performAccessibilityAction(closer.id, null)
        phone.settle()
        assertTrue("${said(phone)} after $before", said(phone) != before && said(phone).startsWith("0:"))
        val live = phone.shown(phone.decor).single { it.accessibilityLiveRegion == View.ACCESSIBILITY_LIVE_REGION_POLITE && it.contentDescription != null }
        assertEquals(said(phone), live.contentDescription.toString())
    }

    @Test
    fun aFigureThatIsTouchedShowsWhereItComesFrom() = service { phone ->
        atTheLog(phone).tap("Strom, highest").expect("Where it comes from")
        assertTrue(said(phone), said(phone).startsWith("1:1") && "90 A" in said(phone))
        phone.picture("log-figure", File(System.getProperty("liftgate.target"), "gallery"))
        phone.back().expect("What it says")
    }
}
