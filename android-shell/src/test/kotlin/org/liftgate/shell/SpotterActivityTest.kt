package org.liftgate.shell

import android.app.ActivityManager
import android.view.View
import android.view.WindowManager
import java.util.concurrent.CountDownLatch
import java.util.concurrent.TimeUnit
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
import uniffi.liftgate.Icon
import uniffi.liftgate.LiftgateException
import uniffi.liftgate.SpotterAct
import uniffi.liftgate.SpotterControl
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
        assertEquals("1 minute 15 seconds", clock())
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

    /** The core takes its time over [act], as a slow flash does with the sync of an entry, until [meanwhile] is done. */
    private fun slowly(act: String, meanwhile: (Phone) -> Unit) {
        val synced = CountDownLatch(1)
        core.after = { if (it == act) check(synced.await(10, TimeUnit.SECONDS)) }
        phone.atOnce(meanwhile)
        synced.countDown()
        phone.settle()
    }

    @Test
    fun whatIsTouchedDuringTheSyncOfAMarkIsCarriedOutInOrderAndNoneIsLost() {
        flying()
        phone.launch()
        var down = 0L
        slowly("mark SHAKE") {
            it.tap("Shake").tap("Radio alarm").tap("Shake").hold("Touchdown")
            down = it.clock.monotonicMs
        }
        assertEquals(listOf("mark SHAKE", "mark ALARM", "mark SHAKE", "land"), core.acts)
        assertEquals("each at the moment of its touch", down, core.actedAt.last())
    }

    @Test
    fun theClockIsStartedAndStoppedWhileTheCoreIsAtWork() {
        phone.launch()
        slowly("start") {
            it.hold("Start the clock").hold("Start the clock")
            flying()
        }
        assertEquals("start", core.acts.first())
        slowly("mark SHAKE") { it.tap("Shake").hold("Touchdown").hold("Touchdown") }
        assertEquals(listOf("mark SHAKE", "land", "land"), core.acts.takeLast(3))
    }

    @Test
    fun aMarkThatIsNotYetOnTheScreenIsNotTakenBackInPlaceOfTheOneThatIs() {
        core.spotterScreen = Samples.spotter(running = true).copy(
            undo = SpotterControl(SpotterAct.UNMARK, "Take back Tail", Icon.UNDO, 0u),
        )
        phone.launch()
        slowly("mark SHAKE") { it.tap("Shake").tap("Take back Tail") }
        assertEquals(listOf("mark SHAKE"), core.acts)
        slowly("unmark") { it.tap("Take back Tail").tap("Take back Tail") }
        assertEquals(listOf("mark SHAKE", "unmark"), core.acts)
    }

    @Test
    fun aCodeThatIsTouchedTwiceIsTriedOnce() {
        locked()
        phone.launch().hold("Back to the pilot").tap("2").tap("4").tap("6").tap("8")
        core.after = { if (it == "code 2468") core.turn = Turn.PILOT }
        phone.atOnce { it.tap("Open").tap("Open") }
        phone.settle()
        assertEquals(listOf("code 2468"), core.acts)
        assertTrue(phone.activity is PilotActivity)
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

    /** After touchdown, with a code wanted. */
    private fun locked(waitNote: String? = null) {
        core.spotterScreen = Samples.landed.let {
            it.copy(main = it.main.copy(act = SpotterAct.ENTER_CODE), lock = Samples.lock(waitNote))
        }
    }

    @Test
    fun aTouchdownIsTakenAfterThreeTenthsAndNotAfterAKnock() {
        flying()
        phone.launch().hold("Touchdown", ms = 200)
        assertTrue(core.acts.isEmpty())
        phone.hold("Touchdown", ms = 330)
        assertEquals(listOf("land"), core.acts)
    }

    @Test
    fun theLastMarkIsTakenBackInOneTap() {
        core.spotterScreen = Samples.spotter(running = true).copy(
            undo = SpotterControl(SpotterAct.UNMARK, "Take back Tail", Icon.UNDO, 0u),
        )
        phone.launch().tap("Take back Tail")
        assertEquals(listOf("unmark"), core.acts)
    }

    @Test
    fun theCodeIsTypedOnLargeKeysAndShownAsDots() {
        locked()
        phone.launch().hold("Back to the pilot").expect("The pilot's code")
        assertFalse("the flight makes room for the keys", phone.says("Still flying"))
        phone.tap("2").tap("4").tap("7").tap("Erase").tap("6").tap("8")
        assertTrue(phone.words().toString(), phone.says("\u2022 \u2022 \u2022 \u2022"))
        assertFalse(phone.says("2468"))
        core.after = { if (it == "code 2468") core.turn = Turn.PILOT }
        phone.tap("Open")
        assertEquals("code 2468", core.acts.last())
        assertTrue(phone.activity is PilotActivity)
    }

    @Test
    fun aWrongCodeIsSaidTheKeysStayAndNothingTypedIsLeft() {
        locked()
        phone.launch().hold("Back to the pilot").tap("1").tap("1").tap("1").tap("1")
        core.after = { if (it == "code 1111") throw LiftgateException.Refused("code", "That is not the pilot's code") }
        phone.tap("Open").expect("That is not the pilot's code").expect("The pilot's code")
        assertFalse(phone.says("\u2022"))
        phone.tap("Back to the flight").expect("Still flying")
    }

    @Test
    fun keysThatMustWaitAreClosedAndTheWaitIsCountedByTheCore() {
        locked("After wrong codes: the next one in 30 s")
        phone.launch().hold("Back to the pilot").expect("the next one in 30 s")
        assertFalse(phone.targets().any { "7" in phone.labels(it) })
        locked()
        phone.wait(1_500)
        assertTrue(phone.targets().any { "7" in phone.labels(it) })
        phone.tap("No code at hand")
        assertEquals("wait", core.acts.last())
    }

    @Test
    fun theKeysAreLargeEnoughForGloves() {
        locked()
        phone.launch().hold("Back to the pilot")
        val density = phone.activity.resources.displayMetrics.density
        val keys = phone.targets().filter { phone.labels(it).first().length == 1 }
        assertEquals(10, keys.size)
        // MIL-STD-1472E: keys for mittens at least 19 mm; a pad of three across a phone's width has what is left of it.
        keys.forEach { assertTrue("${it.width / density} by ${it.height / density} dp", it.width / density >= 96 && it.height / density >= 76) }
        assertTrue(Inspector(phone).layoutFaults().joinToString("\n"), Inspector(phone).layoutFaults().isEmpty())
    }

    @Test
    fun theWindowIsPinnedWhileTheSpotterHasThePhone() {
        flying()
        phone.launch()
        val manager = phone.activity.getSystemService(android.app.ActivityManager::class.java)
        assertTrue(manager.lockTaskModeState != android.app.ActivityManager.LOCK_TASK_MODE_NONE)
        core.spotterScreen = Samples.landed
        core.after = { core.turn = Turn.PILOT }
        phone.recreate().hold("Back to the pilot")
        assertEquals(android.app.ActivityManager.LOCK_TASK_MODE_NONE, manager.lockTaskModeState)
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
    fun whoDeclinedThePinningIsNotAskedAgainByATurnOfThePhone() {
        fun pinned() = phone.activity.getSystemService(ActivityManager::class.java).isInLockTaskMode
        phone.launch()
        phone.activity.stopLockTask()
        phone.recreate()
        assertFalse(pinned())
        phone.kill()
        assertTrue("another window of another hand-over asks anew", pinned())
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
