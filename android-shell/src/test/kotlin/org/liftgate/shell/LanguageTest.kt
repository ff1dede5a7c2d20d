package org.liftgate.shell

import org.junit.Assert.assertEquals
import org.junit.Rule
import org.junit.Test
import org.junit.rules.TemporaryFolder
import org.junit.runner.RunWith
import org.liftgate.R
import org.robolectric.RobolectricTestRunner
import org.robolectric.RuntimeEnvironment
import uniffi.liftgate.Liftgate

/** The shell's own few words are in the language of the core's, whatever the phone speaks. */
@RunWith(RobolectricTestRunner::class)
class LanguageTest {
    @get:Rule val folder = TemporaryFolder()

    private val app get() = RuntimeEnvironment.getApplication()

    private fun phone() = Phone(
        folder.root,
        open = { path, now -> Liftgate.open(path, now, app.resources.configuration.locales[0].toLanguageTag()) },
    )

    @Test fun aChosenLanguageTurnsEveryWordAtOnceAndOutlivesTheProcess() {
        phone().use { phone ->
            phone.launch().tap("Language and units").tap("Deutsch")
            phone.expect("Sprache und Einheiten")
            assertEquals("Gedrückt halten", phone.activity.getString(R.string.press_and_hold))
            phone.kill()
            phone.expect("Sprache und Einheiten")
            assertEquals("Gedrückt halten", phone.activity.getString(R.string.press_and_hold))
            phone.tap("English").expect("Language and units")
            assertEquals("Press and hold", phone.activity.getString(R.string.press_and_hold))
        }
    }

    @Test fun aGermanPhoneSpeaksGermanUntilAnotherLanguageIsChosen() {
        RuntimeEnvironment.setQualifiers("+de")
        phone().use { phone ->
            phone.launch().expect("Abschnitte")
            assertEquals("Gedrückt halten", phone.activity.getString(R.string.press_and_hold))
            phone.tap("Sprache und Einheiten").tap("English").back().expect("Stages")
            assertEquals("Press and hold", phone.activity.getString(R.string.press_and_hold))
        }
    }
}
