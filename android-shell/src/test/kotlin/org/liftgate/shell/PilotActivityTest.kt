package org.liftgate.shell

import android.graphics.Insets
import android.graphics.Rect
import android.view.View
import android.view.WindowInsets
import android.widget.EditText
import android.widget.TextView
import org.junit.After
import org.junit.Assert.assertEquals
import org.junit.Assert.assertFalse
import org.junit.Assert.assertNull
import org.junit.Assert.assertTrue
import org.junit.Rule
import org.junit.Test
import org.junit.rules.TemporaryFolder
import org.junit.runner.RunWith
import org.liftgate.R
import org.robolectric.RobolectricTestRunner
import uniffi.liftgate.Block
import uniffi.liftgate.Icon
import uniffi.liftgate.LiftgateException
import uniffi.liftgate.Turn

/** What the pilot's activity passes between the person and the core, with a core of the test's own. */
@RunWith(RobolectricTestRunner::class)
class PilotActivityTest {
    @get:Rule val folder = TemporaryFolder()
    private val core = FakeCore(Samples.check)
    private val phone by lazy { Phone(folder.newFolder(), open = { _, _ -> core }) }

    @After fun putAway() = phone.close()

    @Test
    fun aTapSendsTheControlsTokenUntouched() {
        phone.launch().tap("Record")
        assertEquals(listOf("token:Record"), core.taps)
    }

    @Test
    fun theWholeOfARowIsItsTarget() {
        core.screen = Samples.board
        phone.launch().tap("Radio off, motor stops within 1 s")
        assertEquals(listOf("token:Open Failsafe proved"), core.taps)
    }

    @Test
    fun aRowThatLeadsNowhereIsNoTarget() {
        core.screen = Samples.board
        phone.launch()
        assertFalse(phone.targets().any { "Control directions" in phone.labels(it) })
    }

    @Test
    fun whatCannotBeDoneSaysWhyAndSendsNothing() {
        phone.launch().expect("Two checks are missing")
        assertFalse(phone.targets().any { "Release gate" in phone.labels(it) })
        assertTrue(core.taps.isEmpty())
    }

    @Test
    fun stepsAndChoicesSendTheirTokens() {
        phone.launch().step("Motor temperature", 2).step("Centre of gravity", -1).choose("Pack used", "Pack B")
        assertEquals(listOf("token:More", "token:More", "token:Less", "token:Pack B"), core.taps)
    }

    @Test
    fun everyLetterTypedIsSentAtOnce() {
        phone.launch().type("Note", "Belt tight")
        assertEquals("note" to "Belt tight", core.edits.last())
    }

    @Test
    fun aDecimalFieldTakesACommaAndASign() {
        phone.launch().type("Ballast", "-12,5")
        assertEquals("mass_g" to "-12,5", core.edits.last())
        phone.type("Motor temperature", "61")
        assertEquals("temp_c" to "61", core.edits.last())
    }

    @Test
    fun aFlagAppearsWhileTypingAndTheTypedTextStays() {
        phone.launch()
        core.screen = Samples.check.copy(
            blocks = Samples.check.blocks.map {
                if (it is Block.Entry && it.field == "note") it.copy(text = "core's own", flag = "Odd") else it
            },
        )
        phone.type("Note", "abc").expect("Odd")
        assertEquals("abc", fieldOf("note").text.toString())
        phone.done("Note")
        assertEquals("core's own", fieldOf("note").text.toString())
    }

    private fun fieldOf(name: String) = phone.shown(phone.decor).filterIsInstance<EditText>()
        .single { it.getTag(R.id.field) == name }

    @Test
    fun whatWasRecordedIsSaidAndUndoneInOneTap() {
        core.said = "Recorded 12.0 mm"
        phone.launch().tap("Record").expect("Recorded 12.0 mm")
        core.said = null
        phone.tap("Withdraw 12.0 mm")
        assertEquals("token:Withdraw 12.0 mm", core.taps.last())
    }

    @Test
    fun theBackGestureSendsTheScreensOwnWayBack() {
        phone.launch().back()
        assertEquals(listOf("token:Back"), core.taps)
    }

    @Test
    @Suppress("DEPRECATION") // the way back below Android 13
    fun theOlderBackButtonDoesTheSame() {
        phone.launch().activity.onBackPressed()
        phone.settle()
        assertEquals(listOf("token:Back"), core.taps)
    }

    @Test
    fun withoutAWayBackTheGestureLeavesTheApp() {
        phone.launch()
        assertTrue(phone.takesBack())
        core.screen = Samples.board
        phone.tap("Record")
        assertFalse(phone.takesBack())
        phone.back()
        assertEquals(listOf("token:Record"), core.taps)
    }

    @Test
    fun anErrorIsShownInItsOwnWordsAndTheWayOnLooksAgain() {
        phone.launch()
        core.fails = IllegalStateException("the disk is full")
        phone.tap("Record").expect("the disk is full").expect("What was recorded before is all there.")
        core.fails = null
        phone.tap("Go on").expect("Centre of gravity")
    }

    @Test
    fun aRefusalIsSaidOnTheScreenItselfWithItsFieldInSight() {
        phone.launch()
        core.fails = LiftgateException.Refused("mass_g", "240 g is more than the tray holds: 200 g at most.")
        phone.tap("Record").expect("240 g is more than the tray holds").expect("Blades off")
        val field = fieldOf("mass_g")
        assertTrue(field.getGlobalVisibleRect(android.graphics.Rect()))
        core.fails = null
        phone.tap("Record")
        assertFalse(phone.says("tray"))
    }

    /** The refusal stands at its field and nowhere else, wholly in sight, also where a keyboard or large type leaves little room. */
    private fun isSaidOnceAtItsField(reason: String, field: String) {
        val said = phone.shown(phone.decor).filterIsInstance<TextView>().filter { read(it) == reason }.toList()
        assertEquals("“$reason” is said so many times", 1, said.size)
        val block = generateSequence(fieldOf(field) as View) { it.parent as? View }.first { it.tag != null }
        assertTrue("it is said elsewhere", generateSequence(said.single() as View) { it.parent as? View }.any { it === block })
        val seen = Rect()
        assertTrue("it is out of sight", said.single().getGlobalVisibleRect(seen))
        assertEquals("it is cut", said.single().height, seen.height())
    }

    @Test
    fun aRefusalIsSaidOnceAtItsFieldAndInSight() {
        core.after = { throw LiftgateException.Refused("mass_g", "Ballast: 240 g cannot be right; the tray holds 200 g at most") }
        phone.launch()
        for ((qualifiers, type) in listOf("+w412dp-h915dp-port" to 1f, "+w320dp-h640dp-port" to 2f, "+w640dp-h320dp-land" to 2f)) {
            phone.configure(qualifiers, type)
            phone.decor.findViewById<View>(R.id.page).scrollTo(0, 0)
            phone.tap("Record")
            isSaidOnceAtItsField("Ballast: 240 g cannot be right; the tray holds 200 g at most", "mass_g")
        }
        // What the field says of itself already is not said again.
        core.after = { throw LiftgateException.Refused("temp_c", "Last time 58 \u00b0C. Did you mean 60.5 \u00b0C?") }
        phone.tap("Record")
        isSaidOnceAtItsField("Last time 58 \u00b0C. Did you mean 60.5 \u00b0C?", "temp_c")
        // And gives way to the next screen.
        core.after = { }
        phone.tap("Record")
        assertFalse(phone.says("holds 200 g"))
    }

    @Test
    fun aStoreThatCannotBeOpenedIsShownAndTriedAgain() {
        var broken = true
        val stubborn = Phone(folder.newFolder(), open = { _, _ -> if (broken) error("not a journal") else core })
        stubborn.use {
            it.launch().expect("not a journal")
            broken = false
            it.tap("Go on").expect("Blades off")
        }
    }

    @Test
    fun aFollowingScreenOfTheSameKindKeepsViewsAndPlace() {
        phone.launch().reveal("Ballast")
        val page = phone.decor.findViewById<View>(R.id.page)
        val at = page.scrollY
        val field = fieldOf("mass_g")
        phone.step("Motor temperature", 1)
        page.scrollTo(0, at)
        phone.tap("Record")
        assertEquals(at, page.scrollY)
        assertTrue(field === fieldOf("mass_g"))
        core.screen = Samples.board
        phone.tap("Record")
        assertEquals(0, page.scrollY)
        core.screen = Samples.check
        phone.tap("Prove the failsafe")
        assertEquals(at, page.scrollY)
    }

    @Test
    fun placeAndWordsOutliveATurnOfThePhone() {
        core.said = "Recorded 12.0 mm"
        phone.launch().tap("Record").reveal("Ballast")
        val at = phone.decor.findViewById<View>(R.id.page).scrollY
        assertTrue(at > 0)
        phone.recreate().expect("Recorded 12.0 mm")
        assertEquals(at, phone.decor.findViewById<View>(R.id.page).scrollY)
    }

    @Test
    fun theLampSwitchesTheThemeAndTheChoiceStays() {
        core.screen = Samples.board
        phone.launch()
        val light = phone.drawn().getPixel(4, 400)
        phone.tap("Dark, for the workshop")
        val dark = phone.drawn().getPixel(4, 400)
        assertTrue(Inspector.ratio(light, dark) > 10)
        phone.kill()
        assertEquals(dark, phone.drawn().getPixel(4, 400))
        phone.tap("Light, for the field")
        assertEquals(light, phone.drawn().getPixel(4, 400))
    }

    @Test
    fun whenItIsTheSpottersTurnTheSpottersScreenOpens() {
        core.screen = Samples.card
        core.after = { core.turn = Turn.SPOTTER }
        phone.launch().tap("Hand to the spotter")
        assertTrue(phone.activity is SpotterActivity)
        phone.kill()
        assertTrue(phone.activity is SpotterActivity)
    }

    @Test
    fun iconsAloneSayWhatTheyDo() {
        phone.launch()
        for (target in phone.targets().filter { it !is EditText }) {
            assertFalse("a target without words", target.contentDescription.isNullOrBlank())
        }
        assertNull(Samples.control("x", Icon.NONE).whyNot)
    }

    @Test
    fun systemBarsAndKeyboardTakeTheirRoom() {
        phone.launch()
        val insets = WindowInsets.Builder()
            .setInsets(WindowInsets.Type.statusBars(), Insets.of(0, 48, 0, 0))
            .setInsets(WindowInsets.Type.navigationBars(), Insets.of(0, 0, 0, 96))
            .setInsets(WindowInsets.Type.ime(), Insets.of(0, 0, 0, 500)).build()
        val view = phone.decor.findViewById<View>(R.id.foot).parent as View
        view.dispatchApplyWindowInsets(insets)
        assertEquals(listOf(0, 48, 0, 500), listOf(view.paddingLeft, view.paddingTop, view.paddingRight, view.paddingBottom))
        assertTrue(phone.targets().any { "Record" in phone.labels(it) })
        assertFalse("lesser actions make room for the keyboard", phone.says("Raise a finding"))
        view.dispatchApplyWindowInsets(WindowInsets.Builder().build())
        assertTrue(phone.says("Raise a finding"))
    }
}
