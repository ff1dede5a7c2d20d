package org.liftgate.shell

import android.content.ComponentCallbacks2
import android.view.View
import org.junit.Assert.assertEquals
import org.junit.Assert.assertTrue
import org.junit.Rule
import org.junit.Test
import org.junit.rules.TemporaryFolder
import org.junit.runner.RunWith
import org.liftgate.R
import org.robolectric.RobolectricTestRunner
import org.robolectric.RuntimeEnvironment

/**
 * What a phone does to an app by itself, while a flight's clock runs and while the pilot types, with the real core: the phone is turned,
 * another app shares the screen, a call comes in, the screen goes dark, memory runs short. `android-shell/README.md` lists these by
 * version of Android.
 */
@RunWith(RobolectricTestRunner::class)
class PhoneLifeTest {
    @get:Rule val folder = TemporaryFolder()

    private fun inFlight(act: (Phone) -> Unit) {
        val walked = Walked("flying")
        val home = folder.newFolder()
        walked.copy(home)
        Phone(home, walked.clock()).use { phone ->
            phone.launch()
            assertTrue("the spotter has the phone", phone.activity is SpotterActivity)
            act(phone)
        }
    }

    /** What the clock says aloud, in seconds. */
    private fun seconds(phone: Phone): Int {
        val said = phone.decor.findViewById<View>(R.id.clock).contentDescription.toString()
        val (minutes, seconds) = Regex("[0-9]+").findAll(said).map { it.value.toInt() }.toList()
        return minutes * 60 + seconds
    }

    private fun marks(phone: Phone): Int = phone.words().count { Regex("[0-9]:[0-9]{2} .*").matches(it) }

    /** Whatever [happens] in [ms] of a flight leaves the clock running, nothing noted lost, and the next note one touch away. */
    private fun theFlightGoesOn(ms: Long, happens: (Phone) -> Unit) = inFlight { phone ->
        val mark = phone.targets().first { "Shake" in phone.labels(it) }
        phone.touch(mark)
        val (began, noted, at) = Triple(seconds(phone), marks(phone), phone.clock.monotonicMs)
        val calls = phone.spoken.size
        happens(phone)
        val passed = (phone.clock.monotonicMs - at).toInt() / 1_000
        assertTrue("so long it took: $passed s", passed >= ms / 1_000)
        assertEquals("the clock", began + passed.toDouble(), seconds(phone).toDouble(), 1.0)
        assertEquals("what was noted", noted, marks(phone))
        phone.tap("Shake")
        assertEquals("the next note is one touch away", noted + 1, marks(phone))
        assertEquals("no call is made late", phone.spoken.distinct(), phone.spoken)
        assertTrue(phone.spoken.size >= calls)
    }

    @Test
    fun thePhoneIsTurnedInFlight() = theFlightGoesOn(2_000) { phone ->
        phone.configure("+w640dp-h360dp-land").wait(1_000)
        phone.configure("+w360dp-h640dp-port").wait(1_000)
    }

    @Test
    fun anotherAppSharesTheScreenInFlight() = theFlightGoesOn(2_000) { phone ->
        phone.configure("+w360dp-h320dp-land").wait(2_000)
        assertEquals(Inspector(phone).layoutFaults().joinToString("\n"), 0, Inspector(phone).layoutFaults().size)
    }

    /** The call's window lies over the app, which is paused and still seen, then gone from sight. */
    @Test
    fun aCallComesInDuringAFlight() = theFlightGoesOn(30_000) { phone -> phone.covered(10_000).away(20_000) }

    @Test
    fun theScreenGoesDarkInFlight() = theFlightGoesOn(45_000) { phone -> phone.away(45_000) }

    @Test
    fun theProcessIsTakenForItsMemoryInFlight() = theFlightGoesOn(60_000) { phone ->
        RuntimeEnvironment.getApplication().onTrimMemory(ComponentCallbacks2.TRIM_MEMORY_COMPLETE)
        phone.clock.pass(60_000)
        phone.kill()
        assertTrue("the spotter still has the phone", phone.activity is SpotterActivity)
    }

    private fun atAFigure(act: (Phone) -> Unit) = Phone(folder.newFolder()).use { phone ->
        phone.launch().tap("Aircraft").tap("Main rotor diameter").type("Main rotor diameter", "1.8")
        act(phone)
        assertEquals("1.8", phone.shown(phone.decor).filterIsInstance<android.widget.EditText>().first().text.toString())
    }

    @Test
    fun whatIsHalfTypedOutlivesACallADarkScreenAndATurn() = atAFigure { phone ->
        phone.covered(5_000).away(5_000).configure("+w640dp-h360dp-land").configure("+w360dp-h640dp-port", 2f)
    }

    @Test
    fun whatIsHalfTypedOutlivesAShareOfTheScreen() = atAFigure { phone -> phone.configure("+w360dp-h320dp-land") }
}
