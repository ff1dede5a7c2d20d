package org.liftgate.shell

import android.app.Activity
import android.content.Intent
import android.net.Uri
import android.os.Bundle
import android.provider.DocumentsContract
import android.provider.OpenableColumns
import java.io.IOException
import java.io.InputStream
import uniffi.liftgate.Control
import uniffi.liftgate.Document

/**
 * A document that the person picked: what the phone calls it, its length where that is known, and its bytes in pieces. Each is read
 * aside when it is asked for; the rest of it belongs to the main thread.
 */
class Picked(val name: String, val length: ULong?, private val stream: InputStream, private val aside: Aside) {
    private var wanted: ((ByteArray?) -> Unit)? = null
    private var reading = false
    private var givenUp = false

    /** Whether its pieces were asked for yet. */
    var isUnderWay = false
        private set

    /**
     * Hands the next bytes to [then]: none at all at the end, null where it cannot be read on. Who asks while they are being read
     * is given them in the place of whoever asked before.
     */
    fun next(then: (ByteArray?) -> Unit) {
        isUnderWay = true
        wanted = then
        if (reading) return
        reading = true
        aside.run({ full().also { if (it.isEmpty()) stream.close() } }) { piece ->
            reading = false
            if (!givenUp) wanted?.invoke(piece.getOrNull())
        }
    }

    /** Nothing of it is wanted any more; what is being read of it goes nowhere. */
    fun giveUp() {
        givenUp = true
        aside.run({ stream.close() }) {}
    }

    /** As much of a piece as there is: a stream may give less than it is asked for before its end. */
    private fun full(): ByteArray {
        val piece = ByteArray(PIECE)
        var filled = 0
        while (filled < PIECE) {
            val count = stream.read(piece, filled, PIECE - filled)
            if (count < 0) break
            filled += count
        }
        return piece.copyOf(filled)
    }

    private companion object {
        const val PIECE = 1024 * 1024
    }
}

/**
 * The phone's own picker of documents and its camera app, which need no permission. A control that wants a document sends the
 * person there; the control's token waits here, also over the death of the process, until the person comes back.
 */
class Documents(private val activity: Activity) {
    private var token: String? = null

    fun keep(state: Bundle) = state.putString(TOKEN, token)

    fun restore(state: Bundle) {
        token = state.getString(TOKEN)
    }

    /** Opens the picker or the camera app for what [control] wants. */
    fun open(control: Control) {
        val wanted = control.document ?: return
        token = control.token
        val (request, intent) = when (wanted) {
            is Document.Pick -> PICK to Intent(Intent.ACTION_OPEN_DOCUMENT).apply {
                type = wanted.mediaTypes.singleOrNull() ?: "*/*"
                putExtra(Intent.EXTRA_MIME_TYPES, wanted.mediaTypes.toTypedArray())
            }
            is Document.Save -> SAVE to Intent(Intent.ACTION_CREATE_DOCUMENT).apply {
                type = wanted.mediaType
                putExtra(Intent.EXTRA_TITLE, wanted.name)
            }
            is Document.Take -> TAKE to CameraFile.ask()
        }
        if (request != TAKE) intent.addCategory(Intent.CATEGORY_OPENABLE)
        start(intent, request)
    }

    @Suppress("DEPRECATION") // the other way needs a library
    private fun start(intent: Intent, request: Int) = activity.startActivityForResult(intent, request)

    /** The person is back: whether to [pick] or to [save], with the token that waited; or that [noneTaken] by the camera app. */
    fun back(request: Int, result: Int, data: Intent?, pick: (String, Uri) -> Unit, save: (String, Uri) -> Unit, noneTaken: () -> Unit) {
        if (request == TAKE) CameraFile.takeBack(activity)
        val waited = token ?: return
        token = null
        if (result != Activity.RESULT_OK) {
            if (request == TAKE) noneTaken()
            return
        }
        when (request) {
            PICK -> data?.data?.let { pick(waited, it) }
            SAVE -> data?.data?.let { save(waited, it) }
            TAKE -> pick(waited, CameraFile.PLACE)
        }
    }

    /** Opens what was picked; off the main thread. */
    fun picked(uri: Uri, aside: Aside): Picked {
        val stream = activity.contentResolver.openInputStream(uri) ?: throw IOException("nothing to read at $uri")
        val columns = arrayOf(OpenableColumns.DISPLAY_NAME, OpenableColumns.SIZE)
        val known = activity.contentResolver.query(uri, columns, null, null, null)?.use { found ->
            if (found.moveToFirst()) found.getString(0) to (if (found.isNull(1)) null else found.getLong(1).toULong()) else null
        }
        if (uri == CameraFile.PLACE) CameraFile.clear(activity)
        return Picked(known?.first ?: uri.lastPathSegment.orEmpty(), known?.second, stream, aside)
    }

    /** The place where the person said that a document goes; off the main thread. Nothing is opened yet. */
    fun saving(uri: Uri, aside: Aside): Saving {
        val resolver = activity.applicationContext.contentResolver
        val name = runCatching {
            resolver.query(uri, arrayOf(OpenableColumns.DISPLAY_NAME), null, null, null)?.use { found ->
                if (found.moveToFirst()) found.getString(0) else null
            }
        }.getOrNull()
        val open = { resolver.openOutputStream(uri, "wt") ?: throw IOException("nothing can be written at $uri") }
        val remove = {
            // What a provider does not take away is emptied: half a document is worse than none.
            runCatching { check(DocumentsContract.deleteDocument(resolver, uri)) }
                .recoverCatching { resolver.openOutputStream(uri, "wt")?.close() }
            Unit
        }
        return Saving(name ?: uri.lastPathSegment.orEmpty(), open, remove, aside)
    }

    private companion object {
        const val PICK = 1
        const val SAVE = 2
        const val TAKE = 3
        const val TOKEN = "document-token"
    }
}
