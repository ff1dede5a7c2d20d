package org.liftgate.shell

import android.view.View
import android.widget.TextView
import org.junit.Assert.assertEquals
import org.junit.Assert.assertTrue
import org.junit.Rule
import org.junit.Test
import org.junit.rules.TemporaryFolder
import org.junit.runner.RunWith
import org.liftgate.R
import org.robolectric.RobolectricTestRunner
import org.robolectric.RuntimeEnvironment
import uniffi.liftgate.Screen
import uniffi.liftgate.Turn

/**
 * Every kind of block, measured in four widths, three sizes of type, both ways up and both directions of writing.
 * WCAG 2.2 defines contrast; the sizes are this project's own budgets.
 */
@RunWith(RobolectricTestRunner::class)
class LayoutTest {
    @get:Rule val folder = TemporaryFolder()
    private val screens = listOf(Samples.board, Samples.check, Samples.card, Samples.bare)

    private fun each(type: Float, then: (String, Phone) -> Unit) {
        RuntimeEnvironment.setFontScale(type)
        for (size in listOf("w320dp-h640dp", "w360dp-h800dp", "w412dp-h915dp", "w600dp-h960dp")) {
            for (way in listOf("ldltr", "ldrtl")) for (up in listOf("port", "land")) {
                val (width, height) = size.split('-')
                val lying = "w${height.drop(1)}-h${width.drop(1)}"
                RuntimeEnvironment.setQualifiers("+$way-${if (up == "port") size else lying}-$up")
                for (turn in Turn.entries) pass("$size $way $up at $type", turn, then)
            }
        }
    }

    private fun pass(where: String, turn: Turn, then: (String, Phone) -> Unit) {
        val core = FakeCore(screens.first()).apply { this.turn = turn }
        Phone(folder.newFolder(), open = { _, _ -> core }).use { phone ->
            phone.launch()
            if (turn == Turn.SPOTTER) {
                for (screen in listOf(Samples.spotter(false), Samples.spotter(true, 61_000), Samples.landed)) {
                    core.spotterScreen = screen
                    phone.lookAgain()
                    then("spotter ${screen.phase}, $where", phone)
                }
            } else {
                for (screen in screens) {
                    core.screen = screen
                    phone.lookAgain()
                    then("${screen.name}, $where", phone)
                }
            }
        }
    }

    private fun nothingCut(type: Float) {
        val faults = mutableListOf<String>()
        each(type) { where, phone -> Inspector(phone).layoutFaults().forEach { faults += "$where: $it" } }
        assertEquals(faults.joinToString("\n"), 0, faults.size)
    }

    @Test fun nothingIsCutOrTooSmallAtPlainType() = nothingCut(1f)

    @Test fun nothingIsCutOrTooSmallAtLargerType() = nothingCut(1.3f)

    @Test fun nothingIsCutOrTooSmallAtDoubleType() = nothingCut(2f)

    @Test
    fun theInspectorFindsWhatIsCut() {
        Phone(folder.newFolder(), open = { _, _ -> FakeCore(Samples.board) }).use { phone ->
            phone.launch()
            val title = phone.shown(phone.decor).filterIsInstance<TextView>().first { it.text == "Wagtail" }
            title.layout(title.left, title.top, title.right, title.top + title.height / 2)
            assertTrue(Inspector(phone).cutTexts().any { "Wagtail" in it })
            val target = phone.targets().first { "Prove the failsafe" in phone.labels(it) }
            target.layout(target.left, target.top, target.left + 40, target.top + 40)
            assertTrue(Inspector(phone).smallTargets().any { "Prove the failsafe" in it })
        }
    }

    @Test
    fun fieldActionsAreLargeAndLow() {
        val core = FakeCore(Samples.card)
        Phone(folder.newFolder(), open = { _, _ -> core }).use { phone ->
            phone.launch()
            isLargeAndLow(phone, "Hand to the spotter")
        }
        Phone(folder.newFolder(), open = { _, _ -> core.apply { turn = Turn.SPOTTER } }).use { phone ->
            phone.launch()
            isLargeAndLow(phone, "Start the clock")
        }
    }

    private fun isLargeAndLow(phone: Phone, label: String) {
        val view = phone.targets().single { label in phone.labels(it) }
        val least = view.resources.getDimensionPixelSize(R.dimen.target_field)
        assertTrue("$label is ${view.height} px high", view.height >= least)
        val top = IntArray(2).also(view::getLocationInWindow)[1]
        assertTrue("$label begins at $top of ${phone.decor.height}", top >= phone.decor.height * 0.4)
    }

    @Test
    fun textStandsOutInBothThemes() {
        val faint = mutableListOf<String>()
        for (screen in screens) {
            val core = FakeCore(screen)
            Phone(folder.newFolder(), open = { _, _ -> core }).use { phone ->
                phone.launch()
                for (workshop in listOf(false, true)) {
                    phone.theme(workshop)
                    faint += faintAnywhere(phone).map { "${screen.name}, workshop $workshop: $it" }
                }
            }
        }
        assertEquals(faint.joinToString("\n"), 0, faint.size)
    }

    /** Looks at the page in steps of half a window, since only what is drawn can be measured. */
    private fun faintAnywhere(phone: Phone): Set<String> {
        val found = mutableSetOf<String>()
        val page = phone.decor.findViewById<View>(R.id.page)
        var before = -1
        while (page.scrollY != before) {
            before = page.scrollY
            found += Inspector(phone).faintTexts(phone.drawn()) { if (it.textSize >= VALUE_PX) 10.0 else 7.5 }
            page.scrollBy(0, page.height / 2)
            phone.settle()
        }
        return found
    }

    @Test
    fun theSpottersTextStandsOutInBothThemes() {
        val core = FakeCore(Samples.board).apply { turn = Turn.SPOTTER }
        Phone(folder.newFolder(), open = { _, _ -> core }).use { phone ->
            phone.launch()
            for (workshop in listOf(false, true)) {
                phone.theme(workshop)
                val faint = Inspector(phone).faintTexts(phone.drawn()) { 7.5 }
                assertEquals(faint.joinToString("\n"), 0, faint.size)
            }
        }
    }

    private companion object {
        /** At two pixels a dp, the type of values (40 sp) and no other's. */
        const val VALUE_PX = 78f
    }
}
