package org.liftgate.shell

import android.net.Uri
import android.view.View
import java.io.ByteArrayInputStream
import java.io.File
import java.util.Locale
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
        phone.expect("Say once what its columns are.").choose("Column 5", "Leave out").tap("Attach this log")
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
