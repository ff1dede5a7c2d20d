package org.liftgate.shell

import android.view.View
import android.widget.EditText
import java.io.File
import org.junit.Assert.assertArrayEquals
import org.junit.Assert.assertEquals
import org.junit.Assert.assertFalse
import org.junit.Assert.assertTrue
import org.junit.Rule
import org.junit.Test
import org.junit.rules.TemporaryFolder
import org.junit.runner.RunWith
import org.liftgate.R
import org.robolectric.RobolectricTestRunner
import uniffi.liftgate.Liftgate

/** The shell with the Rust core inside and a real journal file. */
@RunWith(RobolectricTestRunner::class)
class RealCoreTest {
    @get:Rule val folder = TemporaryFolder()

    private fun field(phone: Phone) = phone.shown(phone.decor).filterIsInstance<EditText>().first().text.toString()

    @Test
    fun aDraftAndItsScreenOutliveTheProcess() {
        Phone(folder.newFolder()).use { phone ->
            phone.launch().tap("Aircraft").tap("Main rotor diameter")
            phone.type("Main rotor diameter", "1,9").tap("Record it: measured").back().tap("Main rotor diameter")
            phone.type("Main rotor diameter", "1,8").choose("Where it comes from", "Maker's rating")
            phone.kill().expect("Where it comes from")
            assertEquals("1,8", field(phone))
            val chosen = phone.targets().filter { it.isSelected }.flatMap(phone::labels).distinct()
            assertEquals(listOf("Maker's rating"), chosen)
        }
    }

    @Test
    fun aProcessKilledInTheMiddleOfAWordKeepsEveryLetter() {
        Phone(folder.newFolder()).use { phone ->
            phone.launch().tap("Aircraft").tap("Main rotor diameter").type("Main rotor diameter", "1")
            phone.kill()
            assertEquals("1", field(phone))
            phone.type("Main rotor diameter", "1.").kill()
            assertEquals("1.", field(phone))
        }
    }

    @Test
    fun whatIsRecordedIsSaidCanBeWithdrawnAndOutlivesTheProcess() {
        Phone(folder.newFolder()).use { phone ->
            phone.launch().tap("Aircraft").tap("Main rotor diameter").type("Main rotor diameter", "1.8").tap("Record it: measured")
            assertTrue(phone.decor.findViewById<View>(R.id.undo).isShown)
            phone.back().expect("1.8").kill().expect("1.8")
            val open = listOf("To enter", "Main rotor diameter")
            assertFalse(open in phone.words().windowed(2))
            phone.tap("Take back")
            assertTrue(open in phone.words().windowed(2))
        }
    }

    @Test
    fun aCodeIsSetOnItsKeysTakenBackInOneTapAndNeverKeptAsTyped() {
        Phone(folder.newFolder()).use { phone ->
            phone.launch().tap("Aircraft").tap("Pilot's code")
            "8642".forEach { phone.tap(it.toString()) }
            phone.expect("8642").recreate()
            assertFalse("typed digits do not outlive the window", phone.says("8642"))
            "97".forEach { phone.tap(it.toString()) }
            phone.tap("Set this code").expect("4 to 8 digits")
            "8642".forEach { phone.tap(it.toString()) }
            phone.tap("Set this code").expect("Wanted when the spotter gives the phone back")
            phone.kill().expect("Wanted when the spotter gives the phone back")
            phone.tap("Take back").expect("Whoever has the phone can give it back")
        }
    }

    @Test
    fun aJournalThatIsOpenElsewhereIsToldWithAWayOnAndOpensOnceItIsClosedThere() {
        val place = folder.newFolder()
        val clock = HandClock()
        val elsewhere = Liftgate.open(File(place, "liftgate.db").path, clock.now(), "en")
        Phone(place, clock).use { phone ->
            phone.launch().expect("That was not done")
            assertTrue(phone.words().joinToString(), phone.words().any { "open already" in it && "close it there" in it })
            elsewhere.closeJournal()
            phone.tap(app().getString(R.string.go_on)).expect("Aircraft")
        }
        elsewhere.close()
    }

    private fun app() = org.robolectric.RuntimeEnvironment.getApplication()

    @Test
    fun aFileThatIsNoJournalIsNamedAndLeftAsItIs() {
        val place = folder.newFolder()
        val file = File(place, "liftgate.db").apply { writeBytes(ByteArray(8192) { (it % 251).toByte() }) }
        val before = file.readBytes()
        Phone(place).use { phone ->
            phone.launch().expect("That was not done")
            assertTrue(phone.words().joinToString(), phone.words().any { "liftgate.db" in it })
        }
        assertArrayEquals(before, file.readBytes())
    }
}
