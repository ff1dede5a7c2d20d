package org.liftgate.shell

import android.net.Uri
import java.io.ByteArrayInputStream
import java.io.ByteArrayOutputStream
import java.io.File
import org.junit.Assert.assertTrue
import org.junit.Rule
import org.junit.Test
import org.junit.rules.TemporaryFolder
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner
import org.robolectric.RuntimeEnvironment
import org.robolectric.Shadows.shadowOf

/** The backup and a damaged record on the real shell with the real core, with pictures in both themes and at both ends of the size of type. */
@RunWith(RobolectricTestRunner::class)
class BackupScreensTest {
    @get:Rule val folder = TemporaryFolder()
    private val out = File("target/gallery").apply { mkdirs() }
    private val there = Uri.parse("content://documents/backup.zip")

    @Test fun atFullSize() = pictures("backup-100", 1f)

    @Test fun atTwiceTheSize() = pictures("backup-200", 2f)

    private fun pictures(name: String, scale: Float) {
        RuntimeEnvironment.setFontScale(scale)
        val here = folder.newFolder()
        val saved = ByteArrayOutputStream()
        val resolver = shadowOf(RuntimeEnvironment.getApplication().contentResolver)
        Phone(here).use { phone ->
            phone.launch().tap("Something happened").tap("Hard landing").back()
            phone.tap("Backup").picture("$name-none-yet", out)
            phone.tap("Save a backup")
            resolver.registerOutputStream(there, saved)
            phone.answerPicker(there)
            phone.expect("Saved: backup.zip").picture("$name-saved", out)
        }
        val file = File(here, "liftgate.db")
        damage(file)
        Phone(here).use { phone ->
            phone.launch().picture("$name-damaged", out)
            phone.tap("Go on with what can be read").picture("$name-repaired", out)
            phone.tap("Backup").picture("$name-set-aside", out)
            phone.tap("Record 1, set aside").picture("$name-aside", out).back()
            phone.tap("Bring a backup in")
            resolver.registerInputStream(there, ByteArrayInputStream(saved.toByteArray()))
            phone.answerPicker(there)
            phone.picture("$name-offer", out)
            phone.tap("Go on with the backup")
            assertTrue(File(here, "liftgate.db-aside-2").exists())
        }
    }

    /** Alters the day in the row of the event, wherever a copy of it lies. */
    private fun damage(file: File) {
        val bytes = file.readBytes()
        val event = "happened".toByteArray()
        val places = (0..bytes.size - event.size).filter { at -> event.indices.all { bytes[at + it] == event[it] } }
        places.forEach { bytes[it] = (bytes[it].toInt() xor 1).toByte() }
        check(places.isNotEmpty()) { "no such entry in the file" }
        file.writeBytes(bytes)
    }
}
