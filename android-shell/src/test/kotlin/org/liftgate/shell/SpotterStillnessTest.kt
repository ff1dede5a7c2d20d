package org.liftgate.shell

import android.graphics.Rect
import android.view.View
import android.widget.TextView
import org.junit.Assert.assertEquals
import org.junit.Assert.assertTrue
import org.junit.Rule
import org.junit.Test
import org.junit.rules.TemporaryFolder
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner
import org.robolectric.RuntimeEnvironment
import uniffi.liftgate.Icon
import uniffi.liftgate.SpotterAct
import uniffi.liftgate.SpotterControl
import uniffi.liftgate.SpotterScreen
import uniffi.liftgate.Turn

/** In flight nothing under a thumb moves, and every call for stopping is in view. Measured on the core's own screens as laid out. */
@RunWith(RobolectricTestRunner::class)
class SpotterStillnessTest {
    @get:Rule val folder = TemporaryFolder()

    private val upright = listOf("w320dp-h640dp", "w360dp-h640dp", "w360dp-h800dp", "w412dp-h915dp", "w600dp-h960dp")
    private val lying = listOf("w640dp-h320dp", "w800dp-h360dp", "w915dp-h412dp")

    /** The running flight before anything was noted, as the core makes it. */
    private fun unmarked(spoken: RealScreens): SpotterScreen {
        val flying = spoken.spotters.first { it.clock.running }
        return flying.copy(undo = null, log = emptyList(), marks = flying.marks.map { it.copy(count = 0u) })
    }

    private fun each(types: List<Float>, sizes: List<String>, work: (String, RealScreens, FakeCore, Phone) -> Unit) {
        for (type in types) for (size in sizes) for (spoken in RealScreens.all) {
            RuntimeEnvironment.setFontScale(type)
            RuntimeEnvironment.setQualifiers("+$size-${if (size in lying) "land" else "port"}")
            val core = FakeCore(Samples.board).apply {
                language = spoken.language
                turn = Turn.SPOTTER
                spotterScreen = unmarked(spoken)
            }
            Phone(folder.newFolder(), open = { _, _ -> core }).use { phone ->
                phone.launch()
                work("$size at $type in ${spoken.language}", spoken, core, phone)
            }
        }
    }

    private fun labelled(phone: Phone, label: String) = phone.targets().first { it.tag == label }

    private fun at(view: View): Rect = IntArray(2).let {
        view.getLocationInWindow(it)
        Rect(it[0], it[1], it[0] + view.width, it[1] + view.height)
    }

    /** What of it is in sight. */
    private fun seen(view: View) = Rect().also { if (!view.getGlobalVisibleRect(it)) it.setEmpty() }

    /** Where everything stands that can be touched in flight, but for the way to take a mark back. */
    private fun places(phone: Phone, taking: String?): Map<String, Rect> =
        phone.targets().filter { it.tag != taking }.associate { (it.tag ?: it.contentDescription).toString() to at(it) }

    @Test
    fun noMarkMovesWithTheFirstOneNorWithACall() {
        each(listOf(1f, 1.3f, 2f), upright + lying) { where, _, core, phone ->
            val before = core.spotterScreen
            for (mark in before.marks) {
                core.spotterScreen = before
                phone.lookAgain()
                phone.scrollTo(labelled(phone, mark.label))
                val stood = places(phone, taking = null)
                val back = "Take back ${mark.label}"
                core.spotterScreen = before.copy(
                    undo = SpotterControl(SpotterAct.UNMARK, back, Icon.UNDO, 0u),
                    log = listOf("0:41  ${mark.label}"),
                    marks = before.marks.map { if (it.kind == mark.kind) it.copy(count = 1u) else it },
                )
                phone.lookAgain()
                assertEquals("“${mark.label}” was noted, $where", stood, places(phone, back))
                val taken = phone.targets().first { target -> target.tag == back }
                val others = phone.targets().filter { it !== taken }
                assertTrue("“$back” stands where something else stands, $where", others.none { Rect.intersects(seen(it), seen(taken)) })
            }
            assertTrue("all marks are there, $where", before.marks.all { mark -> phone.targets().any { it.tag == mark.label } })
        }
    }

    @Test
    fun noMarkMovesWhenACallIsMadeAndAtTenMinutes() {
        each(listOf(1f, 1.3f), upright + lying) { where, _, core, phone ->
            for (seconds in listOf(core.spotterScreen.calls.first().atS, TEN_MINUTES_S)) {
                val from = core.spotterScreen
                core.spotterScreen = from.copy(clock = from.clock.copy(elapsedMs = (seconds - 2) * MS))
                phone.lookAgain()
                phone.wait(500)
                val stood = places(phone, null)
                phone.wait(3_000)
                assertEquals("at $seconds s, $where", stood, places(phone, null))
            }
        }
    }

    @Test
    fun aSecondTouchAtTheSameSpotNotesTheSameOnceMore() {
        each(listOf(1f), listOf("w320dp-h640dp", "w412dp-h915dp")) { where, _, core, phone ->
            val before = core.spotterScreen
            val label = before.marks[before.marks.size - 3].label
            core.after = { act ->
                if (act.startsWith("mark")) core.spotterScreen = before.copy(undo = SpotterControl(SpotterAct.UNMARK, "Take back $label", Icon.UNDO, 0u))
            }
            phone.tap(label)
            val spot = at(labelled(phone, label))
            phone.touch(labelled(phone, label))
            assertEquals(where, spot, at(labelled(phone, label)))
            val kind = before.marks[before.marks.size - 3].kind
            assertEquals(where, listOf("mark $kind", "mark $kind"), core.acts)
        }
    }

    @Test
    fun everyCallForStoppingIsInViewOnTheSmallestPhoneBeforeAndAfterAMark() {
        each(listOf(1f), upright) { where, _, core, phone ->
            val before = core.spotterScreen
            assertTrue("the card has calls", before.knockOff.size >= 4)
            for (screen in listOf(before, before.copy(undo = SpotterControl(SpotterAct.UNMARK, "Take back ${before.marks[6].label}", Icon.UNDO, 0u)))) {
                core.spotterScreen = screen
                phone.lookAgain()
                for (call in screen.knockOff) {
                    val view = phone.shown(phone.decor).filterIsInstance<TextView>().single { it.text.toString() == call }
                    val seen = Rect()
                    assertTrue("“$call” is out of sight, $where", view.getGlobalVisibleRect(seen))
                    assertEquals("“$call” is in sight in part, $where", at(view), seen)
                }
            }
        }
    }

    private companion object {
        const val TEN_MINUTES_S = 600L
        const val MS = 1_000L
    }
}
