package org.liftgate.shell

import android.view.View
import android.widget.EditText
import org.junit.Assert.assertFalse
import org.junit.Assert.assertTrue
import org.junit.Rule
import org.junit.Test
import org.junit.rules.TemporaryFolder
import org.junit.runner.RunWith
import org.liftgate.R
import org.robolectric.RobolectricTestRunner

/** What field use allows a landing in touches and in seconds by the keystroke-level model, played on the core through real touches. */
@RunWith(RobolectricTestRunner::class)
class LandingBudgetTest {
    @get:Rule val folder = TemporaryFolder()

    /** The spotter has the phone and the clock runs. */
    private fun flying(work: (Phone, Keystrokes) -> Unit) {
        val walked = Walked("hovering")
        val place = folder.newFolder().also(walked::copy)
        Phone(place, walked.clock()).use { phone ->
            phone.launch()
            work(phone, Keystrokes(phone).begin())
        }
    }

    private fun within(keys: Keystrokes, homing: Boolean, touches: Int, seconds: Double) {
        val took = "%d touches and %.2f s".format(keys.touches, keys.seconds(homing))
        println("a landing of at most $touches touches and $seconds s took $took")
        assertTrue("$took, and at most $touches and $seconds s are allowed", keys.touches <= touches && keys.seconds(homing) <= seconds + ROUNDING_S)
    }

    @Test
    fun aTouchdownIsOneTouch() = flying { phone, keys ->
        phone.hold("Touchdown", TOUCHDOWN_MS).expect("Down, motor off")
        within(keys, homing = false, touches = 1, seconds = 2.75)
    }

    /** The least rest of a finger that counts: a shorter one would pass the budget and land nothing. */
    @Test
    fun aShorterTouchIsNoTouchdown() = flying { phone, _ ->
        phone.hold("Touchdown", TOUCHDOWN_MS - 60)
        assertFalse(phone.words().joinToString("\n"), phone.says("Down, motor off"))
    }

    @Test
    fun aLandingWithThreeTemperaturesIsFourTouchesAndNoKeyboard() = flying { phone, keys ->
        phone.hold("Touchdown", TOUCHDOWN_MS).wait(LOOK_ROUND_MS)
        // The phone is in the hand that flew: what counts begins with taking it back from the spotter's side.
        keys.begin()
        phone.hold("Back to the pilot", HELD_MS).expect("Controller reads")
        for (place in PLACES) {
            assertTrue("a field has the keyboard", phone.shown(phone.decor).filterIsInstance<EditText>().none { it.isFocused })
            // As long as the model gives a practised person to decide and to point.
            phone.wait(TO_THE_NEXT_MS)
            phone.touch(phone.targets().first { target -> phone.labels(target).any { it.startsWith("$place: ") && it.endsWith(" degrees Celsius") } })
        }
        within(keys, homing = false, touches = 4, seconds = 11.0)
        assertTrue("the last reading records the landing", phone.decor.findViewById<View>(R.id.undo).isShown)
        phone.kill()
        assertFalse("it is recorded, not kept as a draft", phone.says(" reads"))
    }

    @Test
    fun aTouchThatBouncesEntersNoSecondTemperature() = flying { phone, _ ->
        phone.hold("Touchdown", TOUCHDOWN_MS).wait(LOOK_ROUND_MS)
        phone.hold("Back to the pilot", HELD_MS).expect("Controller reads").wait(TO_THE_NEXT_MS)
        val spot = phone.targets().first { target -> phone.labels(target).any { it.startsWith("Controller: ") && it.endsWith(" degrees Celsius") } }
        phone.touch(spot)
        phone.expect("Motor case reads")
        phone.touch(phone.targets().first { target -> phone.labels(target).any { it.startsWith("Motor case: ") && it.endsWith(" degrees Celsius") } })
        phone.expect("Motor case reads").expect("touch it again")
    }

    private companion object {
        val PLACES = listOf("Controller", "Motor case", "Main pack")

        /** How long a finger has to rest on the landing, and on the other large controls. */
        const val TOUCHDOWN_MS = 300L
        const val HELD_MS = 600L
        const val TO_THE_NEXT_MS = 2_450L
        const val LOOK_ROUND_MS = 12_000L
        const val ROUNDING_S = 1e-9
    }
}
