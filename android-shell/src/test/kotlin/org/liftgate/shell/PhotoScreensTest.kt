package org.liftgate.shell

import android.app.Activity
import android.content.Intent
import android.graphics.Color
import android.graphics.drawable.BitmapDrawable
import android.net.Uri
import android.provider.MediaStore
import android.widget.ImageView
import java.io.ByteArrayInputStream
import java.io.File
import org.junit.Assert.assertEquals
import org.junit.Assert.assertTrue
import org.junit.Rule
import org.junit.Test
import org.junit.rules.TemporaryFolder
import org.junit.runner.RunWith
import org.liftgate.season.drawnPhoto
import org.robolectric.RobolectricTestRunner
import org.robolectric.RuntimeEnvironment
import org.robolectric.Shadows.shadowOf
import org.robolectric.util.ReflectionHelpers
import org.robolectric.util.ReflectionHelpers.ClassParameter.from

/** A photo that is picked and looked at on the real shell with the real core, with pictures at both ends of the size of type. */
@RunWith(RobolectricTestRunner::class)
class PhotoScreensTest {
    @get:Rule val folder = TemporaryFolder()
    private val out = File("target/gallery").apply { mkdirs() }

    @Test fun atFullSize() = pictures("photo-100", 1f)

    @Test fun atTwiceTheSize() = pictures("photo-200", 2f)

    /** The camera app is given one place for one photo; nothing of it is left there, and nobody else could read it. */
    @Test
    fun aPhotoIsTakenByThePhonesOwnCameraApp() {
        Phone(folder.newFolder()).use { phone ->
            phone.launch().tap("Aircraft").tap("Take a photo")
            val asked = phone.answerCamera(drawnPhoto())
            assertEquals(MediaStore.ACTION_IMAGE_CAPTURE, asked.action)
            assertTrue("no right to write", asked.flags and Intent.FLAG_GRANT_WRITE_URI_PERMISSION != 0)
            assertEquals(CameraFile.PLACE, asked.clipData?.getItemAt(0)?.uri)
            phone.expect("Photo attached: the aircraft").expect("Photo 1,")
            assertEquals(emptyList<String>(), leftByTheCamera())
        }
    }

    /** A camera wants much memory: what asked for the photo may be gone and made anew by the time it is taken. */
    @Test
    fun aPhotoIsTakenThoughTheScreenWasLetGoMeanwhile() {
        Phone(folder.newFolder()).use { phone ->
            phone.launch().tap("Aircraft").tap("Take a photo")
            val request = shadowOf(phone.activity).peekNextStartedActivityForResult().requestCode
            phone.recreate()
            phone.activity.contentResolver.openOutputStream(CameraFile.PLACE, "w")!!.use { it.write(drawnPhoto()) }
            taken(phone, request)
            phone.expect("Photo attached: the aircraft")
        }
    }

    /** A camera app may say that it took a photo and have written none. */
    @Test
    fun whatAnEarlierPhotoLeftIsNotTakenForANewOne() {
        Phone(folder.newFolder()).use { phone ->
            phone.launch().tap("Aircraft")
            phone.activity.contentResolver.openOutputStream(CameraFile.PLACE, "w")!!.use { it.write(drawnPhoto()) }
            phone.tap("Take a photo")
            taken(phone, shadowOf(phone.activity).peekNextStartedActivityForResult().requestCode)
            assertTrue("a photo was attached", phone.words().none { it.startsWith("Photo 1,") })
        }
    }

    @Test
    fun whoTakesNoneIsWhereTheyWere() {
        Phone(folder.newFolder()).use { phone ->
            phone.launch().tap("Aircraft").tap("Take a photo")
            phone.answerCamera(null)
            phone.expect("Take a photo")
            assertTrue("a photo was attached", phone.words().none { it.startsWith("Photo 1,") })
            assertEquals(emptyList<String>(), leftByTheCamera())
        }
    }

    /** The camera app says that it took the photo it was asked for. */
    private fun taken(phone: Phone, request: Int) {
        ReflectionHelpers.callInstanceMethod<Unit>(
            phone.activity, "onActivityResult", from(Int::class.java, request), from(Int::class.java, Activity.RESULT_OK),
            from(Intent::class.java, null),
        )
        phone.settle()
    }

    private fun leftByTheCamera() = File(RuntimeEnvironment.getApplication().cacheDir, "camera").list().orEmpty().toList()

    private fun pictures(name: String, scale: Float) {
        RuntimeEnvironment.setFontScale(scale)
        val there = Uri.parse("content://documents/IMG_0042.jpg")
        Phone(folder.newFolder()).use { phone ->
            phone.launch().tap("Aircraft").tap("Attach a photo")
            shadowOf(RuntimeEnvironment.getApplication().contentResolver).registerInputStream(there, ByteArrayInputStream(drawnPhoto()))
            phone.answerPicker(there)
            phone.expect("Photo attached: the aircraft").picture("$name-attached", out)
            val row = phone.words().first { it.startsWith("Photo 1,") }
            phone.tap(row).picture("$name-shown", out)
            val shown = phone.shown(phone.decor).filterIsInstance<ImageView>().first { it.contentDescription == "Photo of the aircraft" }
            val bitmap = (shown.drawable as BitmapDrawable).bitmap
            assertEquals(1080 to 810, bitmap.width to bitmap.height)
            val sky = bitmap.getPixel(1000, 40)
            assertTrue("the sky is ${Integer.toHexString(sky)}", Color.blue(sky) in 195..230 && Color.red(sky) in 155..190)
        }
    }
}
