package org.liftgate.shell

import android.content.ContentProvider
import android.content.ContentValues
import android.content.Intent
import android.database.Cursor
import android.database.MatrixCursor
import android.net.Uri
import android.os.Bundle
import android.provider.OpenableColumns
import android.system.ErrnoException
import android.system.OsConstants
import java.io.ByteArrayOutputStream
import java.io.File
import java.io.FileNotFoundException
import java.io.IOException
import java.io.OutputStream
import java.util.concurrent.CountDownLatch
import org.junit.Assert.assertEquals
import org.junit.Assert.assertFalse
import org.junit.Assert.assertTrue
import org.junit.Rule
import org.junit.Test
import org.junit.rules.TemporaryFolder
import org.junit.runner.RunWith
import org.robolectric.Robolectric
import org.robolectric.RobolectricTestRunner
import org.robolectric.RuntimeEnvironment
import org.robolectric.Shadows.shadowOf

/** The dossier on its way out through the phone's picker, with the Rust core behind it and a provider that may fail it. */
@RunWith(RobolectricTestRunner::class)
class SavingTest {
    @get:Rule val folder = TemporaryFolder()
    private val there = Uri.parse("content://place/dossier.html")
    private val gallery = File(System.getProperty("liftgate.target"), "gallery")

    /** Another app's documents: it knows a name, and takes a document away where it is told to. */
    class Place : ContentProvider() {
        val removed = mutableListOf<Uri>()
        override fun onCreate() = true
        override fun call(authority: String, method: String, arg: String?, extras: Bundle?): Bundle? {
            @Suppress("DEPRECATION")
            if (method == "android:deleteDocument") removed += checkNotNull(extras?.getParcelable("uri") as Uri?)
            return Bundle()
        }
        override fun query(uri: Uri, columns: Array<String>?, where: String?, values: Array<String>?, order: String?): Cursor =
            MatrixCursor(arrayOf(OpenableColumns.DISPLAY_NAME)).apply { addRow(arrayOf("for the buyer.html")) }
        override fun getType(uri: Uri) = "text/html"
        override fun insert(uri: Uri, values: ContentValues?): Uri? = null
        override fun delete(uri: Uri, where: String?, values: Array<String>?) = 0
        override fun update(uri: Uri, new: ContentValues?, where: String?, values: Array<String>?) = 0
    }

    private val place by lazy { Robolectric.buildContentProvider(Place::class.java).create("place").get() }

    private fun takes(stream: () -> OutputStream) {
        place
        shadowOf(RuntimeEnvironment.getApplication().contentResolver).registerOutputStreamSupplier(there, stream)
    }

    /** A stream that takes [most] bytes, and then fails with what [failure] makes; [atClose]: only when it is closed. */
    private class Failing(private val most: Int, private val atClose: Boolean = false, private val failure: () -> IOException) : OutputStream() {
        private var taken = 0
        override fun write(byte: Int) = write(byteArrayOf(byte.toByte()))
        override fun write(from: ByteArray, at: Int, count: Int) {
            taken += count
            if (taken > most && !atClose) throw failure()
        }
        override fun close() {
            if (atClose) throw failure()
        }
    }

    private fun full() = IOException("write failed", ErrnoException("write", OsConstants.ENOSPC))

    private fun atThePage(phone: Phone): Phone = phone.launch().tap("Aircraft").tap("The dossier")

    private fun service(work: (Phone) -> Unit) {
        val own = folder.newFolder()
        val walked = Walked("service")
        Phone(own, walked.clock(), journal = walked.copy(own)).use(work)
    }

    @Test
    fun theDossierIsSavedWhereThePersonSaid() = service { phone ->
        val out = ByteArrayOutputStream()
        takes { out }
        atThePage(phone).picture("dossier", gallery)
        phone.tap("Save the dossier")
        phone.whileItShows("Writing the document") {
            phone.snapshot(File(gallery, "dossier-writing.png"))
            phone.recreate()
        }
        val asked = phone.answerPicker(there)
        assertEquals(Intent.ACTION_CREATE_DOCUMENT, asked.action)
        assertEquals("text/html", asked.type)
        assertTrue(asked.getStringExtra(Intent.EXTRA_TITLE)!!.endsWith(".html"))
        phone.expect("Saved: for the buyer.html").expect("Save the dossier")
        val page = out.toString(Charsets.UTF_8)
        assertTrue(page.startsWith("<!doctype html>") && page.trimEnd().endsWith("</html>"))
        assertEquals("each section stands once, whatever the window did", 1, page.split("id=\"chain\"").size - 1)
        assertTrue(place.removed.isEmpty())
    }

    @Test
    fun aFullPlaceAndAGoneOneAreSaidInPlainWordsAndNothingIsLeftThere() = service { phone ->
        atThePage(phone)
        val failures = listOf<Pair<() -> OutputStream, String>>(
            { Failing(100_000) { full() } } to "There is no room for 'for the buyer.html'",
            { Failing(Int.MAX_VALUE, atClose = true) { full() } } to "There is no room for 'for the buyer.html'",
            { Failing(100_000) { IOException("the card was taken out") } } to "the place is gone or takes nothing",
            { throw FileNotFoundException("no such place") } to "the place is gone or takes nothing",
        )
        failures.forEachIndexed { index, (stream, words) ->
            takes(stream)
            phone.tap("Save the dossier")
            phone.answerPicker(there)
            phone.expect(words).expect("Save the dossier")
            assertFalse(phone.says("Saved:"))
            assertEquals(index + 1, place.removed.size)
            assertEquals(there, place.removed.last())
        }
    }

    @Test
    fun aTouchStopsItAlsoWhereThePlaceTakesNothing() = service { phone ->
        val letGo = CountDownLatch(1)
        takes {
            object : ByteArrayOutputStream() {
                override fun write(from: ByteArray, at: Int, count: Int) {
                    letGo.await()
                    super.write(from, at, count)
                }
            }
        }
        atThePage(phone).tap("Save the dossier")
        phone.answerPicker(there, await = false)
        try {
            phone.awaits("Writing the document")
            phone.atOnce { it.tap("Stop").awaits("What is in it") }
        } finally {
            letGo.countDown()
        }
        phone.settle()
        phone.expect("Save the dossier")
        assertFalse(phone.says("Saved:"))
        assertTrue(there in place.removed)
    }

    @Test
    fun whoSaysNoPlaceIsWhereTheyWere() = service { phone ->
        atThePage(phone).tap("Save the dossier")
        phone.answerPicker(null)
        phone.expect("Save the dossier").kill().expect("Save the dossier")
    }
}
