package org.liftgate.shell

import android.app.Activity
import android.content.Intent
import android.net.Uri
import android.os.Bundle
import android.provider.OpenableColumns
import java.io.IOException
import java.io.InputStream
import uniffi.liftgate.Control
import uniffi.liftgate.Document

/** A document that the person picked: what the phone calls it, and what is in it. */
class Picked(val name: String, val bytes: ByteArray)

/**
 * The phone's own picker of documents, which needs no permission. A control that wants a document sends the person
 * there; the control's token waits here, also over the death of the process, until the person comes back.
 */
class Documents(private val activity: Activity) {
    private var token: String? = null
    private var most = 0L

    fun keep(state: Bundle) {
        state.putString(TOKEN, token)
        state.putLong(MOST, most)
    }

    fun restore(state: Bundle) {
        token = state.getString(TOKEN)
        most = state.getLong(MOST)
    }

    /** Opens the picker for what [control] wants; false where it wants no document. */
    fun open(control: Control): Boolean {
        val wanted = control.document ?: return false
        token = control.token
        val (request, intent) = when (wanted) {
            is Document.Pick -> {
                most = wanted.mostBytes.toLong()
                PICK to Intent(Intent.ACTION_OPEN_DOCUMENT).apply {
                    type = wanted.mediaTypes.singleOrNull() ?: "*/*"
                    putExtra(Intent.EXTRA_MIME_TYPES, wanted.mediaTypes.toTypedArray())
                }
            }
            is Document.Save -> SAVE to Intent(Intent.ACTION_CREATE_DOCUMENT).apply {
                type = wanted.mediaType
                putExtra(Intent.EXTRA_TITLE, wanted.name)
            }
        }
        start(intent.addCategory(Intent.CATEGORY_OPENABLE), request)
        return true
    }

    @Suppress("DEPRECATION") // the other way needs a library
    private fun start(intent: Intent, request: Int) = activity.startActivityForResult(intent, request)

    /** The person is back: whether to [pick] or to [save], with the token that waited; neither where they chose none. */
    fun back(request: Int, data: Intent?, pick: (String, Uri) -> Unit, save: (String, Uri) -> Unit) {
        val waited = token ?: return
        token = null
        val uri = data?.data ?: return
        when (request) {
            PICK -> pick(waited, uri)
            SAVE -> save(waited, uri)
        }
    }

    /** Reads what was picked; off the main thread. One byte more than is wanted tells the core that it is too long. */
    fun read(uri: Uri): Picked {
        val stream = activity.contentResolver.openInputStream(uri) ?: throw IOException("nothing to read at $uri")
        return Picked(name(uri), stream.use { upTo(it, most + 1) })
    }

    /** Writes [bytes] to where the person said; off the main thread. */
    fun write(uri: Uri, bytes: ByteArray) {
        val stream = activity.contentResolver.openOutputStream(uri, "wt") ?: throw IOException("no room at $uri")
        stream.use { it.write(bytes) }
    }

    private fun upTo(stream: InputStream, most: Long): ByteArray {
        val out = java.io.ByteArrayOutputStream()
        val piece = ByteArray(PIECE)
        while (out.size() < most) {
            val count = stream.read(piece, 0, minOf(piece.size.toLong(), most - out.size()).toInt())
            if (count < 0) break
            out.write(piece, 0, count)
        }
        return out.toByteArray()
    }

    private fun name(uri: Uri): String {
        val columns = arrayOf(OpenableColumns.DISPLAY_NAME)
        val known = activity.contentResolver.query(uri, columns, null, null, null)?.use {
            if (it.moveToFirst()) it.getString(0) else null
        }
        return known ?: uri.lastPathSegment.orEmpty()
    }

    private companion object {
        const val PICK = 1
        const val SAVE = 2
        const val PIECE = 64 * 1024
        const val TOKEN = "document-token"
        const val MOST = "document-most"
    }
}
