package org.liftgate.desk

import android.content.Intent
import android.net.Uri
import java.io.ByteArrayOutputStream
import java.io.File
import org.json.JSONObject
import org.liftgate.shell.Phone
import org.robolectric.RuntimeEnvironment
import org.robolectric.Shadows.shadowOf

/** In place of the phone's own picker of documents: files of the person at the desk, through the browser. */
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
        val there = Uri.Builder().scheme("content").authority("desk").appendPath(name).build()
        shadowOf(RuntimeEnvironment.getApplication().contentResolver).registerInputStream(there, file.inputStream())
        phone.answerPicker(there, await = false)
    }

    fun chooseNone() {
        phone.answerPicker(null)
    }

    fun save(): ByteArray {
        require(isOpen) { "the app saves no document" }
        val there = Uri.parse("content://desk/saved")
        val out = ByteArrayOutputStream()
        shadowOf(RuntimeEnvironment.getApplication().contentResolver).registerOutputStream(there, out)
        phone.answerPicker(there)
        return out.toByteArray()
    }
}
