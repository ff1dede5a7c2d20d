package org.liftgate.desk

import android.content.Intent
import android.net.Uri
import android.provider.MediaStore
import java.io.ByteArrayOutputStream
import java.io.File
import java.util.concurrent.CompletableFuture
import org.json.JSONObject
import org.liftgate.shell.LiftgateApp
import org.liftgate.shell.Phone
import org.liftgate.shell.Saving
import org.robolectric.RuntimeEnvironment
import org.robolectric.Shadows.shadowOf

/** In place of the phone's own picker of documents and its camera app: files of the person at the desk, through the browser. */
class DeskPicker(private val phone: Phone) {
    /** Whether the app waits for the person to pick, or to say where something goes. */
    val isOpen: Boolean get() = phone.askedPicker != null

    /** What the app asks for: to open a document, or to save one under a name; nothing where it asks for none. */
    fun asJson(): Any {
        val asked = phone.askedPicker ?: return JSONObject.NULL
        val saves = asked.action == Intent.ACTION_CREATE_DOCUMENT
        return JSONObject().put("kind", if (saves) "save" else "open").put("name", asked.getStringExtra(Intent.EXTRA_TITLE).orEmpty())
    }

    /** Picks [file]; what the app makes of it shows on its screen. */
    fun choose(name: String, file: File) {
        require(isOpen) { "the app asks for no document" }
        if (phone.askedPicker?.action == MediaStore.ACTION_IMAGE_CAPTURE) {
            phone.answerCamera(file.readBytes(), await = false)
            return
        }
        val there = Uri.Builder().scheme("content").authority("desk").appendPath(name).build()
        shadowOf(RuntimeEnvironment.getApplication().contentResolver).registerInputStream(there, file.inputStream())
        phone.answerPicker(there, await = false)
    }

    fun chooseNone() {
        phone.answerPicker(null)
    }

    /** Lets the app save what it asked to; comes to what it wrote, or to nothing where it was stopped or failed. */
    fun save(): CompletableFuture<ByteArray?> {
        require(isOpen) { "the app saves no document" }
        val there = Uri.Builder().scheme("content").authority("desk").appendPath(phone.askedPicker?.getStringExtra(Intent.EXTRA_TITLE)).build()
        val out = ByteArrayOutputStream()
        val begun = Leaving(out)
        shadowOf(RuntimeEnvironment.getApplication().contentResolver).registerOutputStreamSupplier(there) {
            if (begun.document == null) begun.document = saving
            out
        }
        leaving = begun
        phone.answerPicker(there, await = false)
        return begun.done
    }

    private val saving: Saving? get() = (RuntimeEnvironment.getApplication() as LiftgateApp).saving

    /** What the app saves at the moment: its document, once it has opened it, and who waits for it. */
    private class Leaving(val out: ByteArrayOutputStream) {
        @Volatile var document: Saving? = null
        val done = CompletableFuture<ByteArray?>()
    }

    private var leaving: Leaving? = null

    /** Tells whoever waits when the app is done with what it saves. */
    fun look() {
        val under = leaving?.takeIf { saving == null && !phone.busy } ?: return
        under.done.complete(if (under.document?.isDone == true) under.out.toByteArray() else null)
        leaving = null
    }
}
