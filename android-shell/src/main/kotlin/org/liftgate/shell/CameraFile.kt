package org.liftgate.shell

import android.content.ClipData
import android.content.ContentProvider
import android.content.ContentValues
import android.content.Context
import android.content.Intent
import android.database.Cursor
import android.database.MatrixCursor
import android.net.Uri
import android.os.Looper
import android.os.ParcelFileDescriptor
import android.provider.MediaStore
import android.provider.OpenableColumns
import java.io.File
import java.io.FileNotFoundException
import java.io.IOException

/**
 * The one file that the phone's camera app may write, by a right that it is given for one photo. The camera is asked by an intent,
 * so the app needs no permission; the file lies where the phone makes no copy of it, and is gone once it was opened to be kept.
 */
class CameraFile : ContentProvider() {
    override fun onCreate() = true

    override fun openFile(uri: Uri, mode: String): ParcelFileDescriptor {
        val context = context ?: throw FileNotFoundException("no context")
        if (uri != PLACE) throw FileNotFoundException("there is nothing at $uri")
        val file = file(context)
        file.parentFile?.mkdirs()
        return ParcelFileDescriptor.open(file, ParcelFileDescriptor.parseMode(mode))
    }

    override fun getType(uri: Uri) = "image/jpeg".takeIf { uri == PLACE }

    override fun query(uri: Uri, columns: Array<String>?, where: String?, values: Array<String>?, order: String?): Cursor? {
        val file = context?.let(::file)?.takeIf { uri == PLACE && it.exists() } ?: return null
        val known = mapOf(OpenableColumns.DISPLAY_NAME to file.name, OpenableColumns.SIZE to file.length())
        val wanted = columns ?: known.keys.toTypedArray()
        return MatrixCursor(wanted, 1).apply { addRow(wanted.map { known[it] }) }
    }

    override fun insert(uri: Uri, values: ContentValues?) = null

    override fun update(uri: Uri, values: ContentValues?, where: String?, arguments: Array<String>?) = 0

    override fun delete(uri: Uri, where: String?, arguments: Array<String>?) = 0

    companion object {
        private const val RIGHT = Intent.FLAG_GRANT_WRITE_URI_PERMISSION or Intent.FLAG_GRANT_READ_URI_PERMISSION

        /** Where the camera app puts its photo. */
        val PLACE: Uri = Uri.parse("content://org.liftgate.camera/photo.jpg")

        private fun file(context: Context) = File(File(context.cacheDir, "camera"), "photo.jpg")

        /** What asks the phone's camera app for a photo. [clear] goes before it. */
        fun ask(): Intent {
            // Older phones take the right from the clip alone.
            return Intent(MediaStore.ACTION_IMAGE_CAPTURE).putExtra(MediaStore.EXTRA_OUTPUT, PLACE).addFlags(RIGHT)
                .apply { clipData = ClipData.newRawUri(null, PLACE) }
        }

        /** The camera app has no more right to the place. */
        fun takeBack(context: Context) = context.revokeUriPermission(PLACE, RIGHT)

        /**
         * Takes away what a camera app left, off the main thread: before it is asked for a photo, so that no older one is taken for it,
         * where it took none, and once the photo is open, since what is open can be read to its end.
         */
        fun clear(context: Context) {
            check(!Looper.getMainLooper().isCurrentThread) { "a file is cleared away on the thread that draws" }
            val file = file(context)
            if (!file.delete() && file.exists()) throw IOException("the photo could not be cleared away")
        }
    }
}
