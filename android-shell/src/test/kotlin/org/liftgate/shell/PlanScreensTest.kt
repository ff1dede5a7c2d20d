package org.liftgate.shell

import android.net.Uri
import java.io.ByteArrayInputStream
import java.io.File
import org.junit.Rule
import org.junit.Test
import org.junit.rules.TemporaryFolder
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner
import org.robolectric.RuntimeEnvironment
import org.robolectric.Shadows.shadowOf

/** Pictures of the screens round the plan, with the real core, in both themes and at both ends of the size of type. */
@RunWith(RobolectricTestRunner::class)
class PlanScreensTest {
    @get:Rule val folder = TemporaryFolder()
    private val out = File("target/gallery").apply { mkdirs() }

    @Test fun atFullSize() = pictures("plan-100", 1f)

    @Test fun atTwiceTheSize() = pictures("plan-200", 2f)

    private fun pictures(name: String, scale: Float) {
        RuntimeEnvironment.setFontScale(scale)
        Phone(folder.newFolder()).use { phone ->
            phone.launch().tap("Something happened").picture("$name-events", out)
            phone.tap("Hard landing").picture("$name-event-recorded", out)
            phone.back().picture("$name-board", out)
            phone.tap("Aircraft").tap("Tail gain").type("New value", "40").type("Why", "From the papers").tap("Record it")
            phone.tap("Settings so far").picture("$name-ledger", out)
            phone.back().tap("Head speed of the second hover").picture("$name-figure-above", out)
            phone.back().tap("Large electric helicopter").picture("$name-plan", out)
            offer(phone, SHIPPED.readText().replace("title = \"Walk-round by hand\"", "title = \"Walk round it\""))
            phone.picture("$name-offer", out)
            phone.back().back()
            phone.tap("Large electric helicopter")
            offer(phone, "format = 1\nid = \"mine\"\ncolour = 3\n")
            phone.picture("$name-faults", out)
        }
    }

    private fun offer(phone: Phone, text: String) {
        phone.tap("Open a plan file")
        val there = Uri.parse("content://documents/mine.toml")
        val resolver = shadowOf(RuntimeEnvironment.getApplication().contentResolver)
        resolver.registerInputStream(there, ByteArrayInputStream(text.toByteArray()))
        phone.answerPicker(there)
    }

    private companion object {
        val SHIPPED = File("../core/plans/large-electric-helicopter.toml")
    }
}
