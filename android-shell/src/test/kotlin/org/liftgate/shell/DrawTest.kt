package org.liftgate.shell
import android.graphics.*
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.*
import java.io.File
@RunWith(RobolectricTestRunner::class)
class DrawTest {
    @Test fun draws() {
        val a = Robolectric.buildActivity(PilotActivity::class.java).setup().get()
        val v = a.window.decorView
        val bm = Bitmap.createBitmap(v.width, v.height, Bitmap.Config.ARGB_8888)
        v.draw(Canvas(bm))
        File(System.getProperty("liftgate.target"), "a.png").outputStream().use { bm.compress(Bitmap.CompressFormat.PNG, 100, it) }
    }
}
