package org.liftgate.shell

import android.content.Intent
import android.net.Uri
import java.io.ByteArrayInputStream
import java.io.ByteArrayOutputStream
import org.junit.Assert.assertEquals
import org.junit.Assert.assertTrue
import org.junit.Rule
import org.junit.Test
import org.junit.rules.TemporaryFolder
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner
import org.robolectric.RuntimeEnvironment
import org.robolectric.Shadows.shadowOf

/** Documents that come and go through the phone's own picker, with the Rust core behind it. */
@RunWith(RobolectricTestRunner::class)
class DocumentsTest {
    @get:Rule val folder = TemporaryFolder()
    private val there = Uri.parse("content://documents/plan.toml")
    private val resolver get() = shadowOf(RuntimeEnvironment.getApplication().contentResolver)

    private fun plan(phone: Phone) = phone.launch().tap("Aircraft").tap("Large electric helicopter")

    private fun offer(bytes: ByteArray) = resolver.registerInputStream(there, ByteArrayInputStream(bytes))

    @Test
    fun aPlanIsSavedChangedAndOpenedAgain() {
        Phone(folder.newFolder()).use { phone ->
            plan(phone).tap("Save a copy of this plan")
            val out = ByteArrayOutputStream()
            resolver.registerOutputStream(there, out)
            val asked = phone.answerPicker(there)
            assertEquals(Intent.ACTION_CREATE_DOCUMENT, asked.action)
            assertEquals("large-electric-helicopter.toml", asked.getStringExtra(Intent.EXTRA_TITLE))
            val text = out.toString(Charsets.UTF_8)
            assertTrue("format = 1" in text)

            phone.tap("Open a plan file")
            offer(text.replace("edition = \"", "edition = \"mine ").replace("title = \"Walk-round by hand\"", "title = \"Walk round it\"").toByteArray())
            assertEquals(Intent.ACTION_OPEN_DOCUMENT, phone.answerPicker(there).action)
            phone.expect("Title: was Walk-round by hand, now Walk round it").expect("Nothing lapses")
            phone.kill().expect("Nothing lapses")
            phone.tap("Bring this plan into force").expect("Plan in force: large-electric-helicopter, edition mine")
        }
    }

    @Test
    fun whatIsNoPlanSaysWhereAndChangesNothing() {
        Phone(folder.newFolder()).use { phone ->
            plan(phone).tap("Open a plan file")
            offer("format = 1\nid = \"mine\"\ncolour = 3\n".toByteArray())
            phone.answerPicker(there)
            phone.expect("Line 3, column 1").back().expect("Plan in force")
            phone.tap("Open a plan file")
            offer(byteArrayOf(0x66, 0xff.toByte(), 0x66))
            phone.answerPicker(there)
            phone.expect("is no text: byte 1")
            phone.tap("Open a plan file")
            offer(ByteArray(2 shl 20))
            phone.answerPicker(there)
            phone.expect("longer than a plan can be")
        }
    }

    @Test
    fun whoChoosesNoneIsWhereTheyWere() {
        Phone(folder.newFolder()).use { phone ->
            plan(phone).tap("Open a plan file")
            phone.answerPicker(null)
            phone.expect("Open a plan file")
        }
    }
}
