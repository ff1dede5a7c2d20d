package org.liftgate.shell

import android.app.ActivityManager
import android.view.View
import android.view.WindowManager
import org.junit.After
import org.junit.Assert.assertEquals
import org.junit.Assert.assertFalse
import org.junit.Assert.assertTrue
import org.junit.Rule
import org.junit.Test
import org.junit.rules.TemporaryFolder
import org.junit.runner.RunWith
import org.liftgate.R
import org.robolectric.RobolectricTestRunner
import uniffi.liftgate.Turn

/** The spotter's screen: a clock that runs on by itself, calls made once, marks in one tap, nothing by accident. */
@RunWith(RobolectricTestRunner::class)
class SpotterActivityTest {
    @get:Rule val folder = TemporaryFolder()
    private val core = FakeCore(Samples.board).apply { turn = Turn.SPOTTER }
    private val phone by lazy { Phone(folder.newFolder(), open = { _, _ -> core }) }

    @After fun putAway() = phone.close()

    private fun clock() = phone.decor.findViewById<View>(R.id.clock).contentDescription?.toString()

    private fun flying(elapsedMs: Long = 0) {
        core.spotterScreen = Samples.spotter(running = true, elapsedMs = elapsedMs)
    }

    @Test
    fun theMainControlActsOnlyAfterAHold() {
        phone.launch().tap("Start the clock")
        assertTrue(core.acts.isEmpty())
        phone.hold("Start the clock", ms = 300)
        assertTrue(core.acts.isEmpty())
        phone.hold("Start the clock")
        assertEquals(listOf("start"), core.acts)
    }

    @Test
    fun throughAReaderTheMainControlActsAtOnce() {
        phone.launch()
        val view = phone.targets().single { "Start the clock" in phone.labels(it) }
        view.performAccessibilityAction(android.view.accessibility.AccessibilityNodeInfo.ACTION_CLICK, null)
        phone.settle()
        assertEquals(listOf("start"), core.acts)
    }

    @Test
    fun theClockRunsOnBetweenTheCoresAnswers() {
        flying(elapsedMs = 30_000)
        phone.launch()
        assertEquals("0 minutes 30 seconds", clock())
        phone.wait(45_000)
        assertEquals("1 minutes 15 seconds", clock())
    }

    @Test
    fun callsAreMadeOnceAtTheirTime() {
        flying()
        phone.launch().wait(59_000)
        assertTrue(phone.spoken.isEmpty())
        phone.wait(3_000).expect("One minute")
        phone.wait(12_000)
        assertFalse(phone.says("One minute"))
        assertEquals(listOf("One minute"), phone.spoken)
        phone.wait(180_000)
        assertEquals(listOf("One minute", "Three minutes", "Land now"), phone.spoken)
    }

    @Test
    fun callsThatPassedWhileTheProcessWasGoneAreNotMadeLate() {
        flying(elapsedMs = 70_000)
        phone.launch().wait(1_000)
        assertTrue(phone.spoken.isEmpty())
    }

    @Test
    fun aMarkTakesOneTapAndTouchdownOneHold() {
        flying()
        phone.launch().tap("Shake").tap("Radio alarm").hold("Touchdown")
        assertEquals(listOf("mark SHAKE", "mark ALARM", "land"), core.acts)
    }

    @Test
    fun marksAppearWhenTheClockRuns() {
        phone.launch()
        assertFalse(phone.says("Shake"))
        core.after = { flying() }
        phone.hold("Start the clock").expect("Shake")
    }

    @Test
    fun theBackGestureLeadsNowhere() {
        flying()
        phone.launch().back()
        assertFalse(phone.activity.isFinishing)
        assertTrue(core.acts.isEmpty())
    }

    @Test
    fun handingBackOpensThePilotsScreen() {
        core.spotterScreen = Samples.spotter(running = false).let {
            it.copy(main = it.main.copy(act = uniffi.liftgate.SpotterAct.HAND_BACK, label = "Hand back"))
        }
        core.after = { core.turn = Turn.PILOT }
        phone.launch().hold("Hand back")
        assertEquals(listOf("hand back"), core.acts)
        assertTrue(phone.activity is PilotActivity)
        phone.expect("Three checks stand between Wagtail and its next flight.")
    }

    @Test
    fun theScreenIsPinnedUntilThePilotHasThePhone() {
        fun pinned() = phone.activity.getSystemService(ActivityManager::class.java).isInLockTaskMode
        phone.launch()
        assertTrue(pinned())
        core.spotterScreen = Samples.landed
        phone.recreate()
        assertTrue(pinned())
        core.after = { core.turn = Turn.PILOT }
        phone.hold("Back to the pilot")
        assertTrue(phone.activity is PilotActivity)
        assertFalse(pinned())
    }

    @Test
    fun theScreenStaysOn() {
        phone.launch()
        val flags = phone.activity.window.attributes.flags
        assertTrue(flags and WindowManager.LayoutParams.FLAG_KEEP_SCREEN_ON != 0)
    }

    @Test
    fun anErrorIsShownAndTheWayOnComesBackToTheClock() {
        flying()
        phone.launch()
        core.fails = IllegalStateException("the disk is full")
        phone.tap("Shake").expect("the disk is full")
        core.fails = null
        phone.tap("Go on").expect("Touchdown")
    }

    @Test
    fun digitsAreTwoCentimetresHighOnAPhoneOfThisSize() {
        phone.launch()
        val face = phone.decor.findViewById<View>(R.id.clock)
        // 160 dp are one inch; 360 dp of width are 57 mm.
        val millimetres = face.height / phone.activity.resources.displayMetrics.density / 160 * 25.4
        assertTrue("the clock is %.1f mm high".format(millimetres), millimetres >= 20)
    }
}
