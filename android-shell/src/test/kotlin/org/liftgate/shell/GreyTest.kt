package org.liftgate.shell

import android.graphics.Bitmap
import android.graphics.Canvas
import android.graphics.Color
import android.view.ContextThemeWrapper
import android.view.View
import kotlin.math.abs
import org.junit.Assert.assertTrue
import org.junit.Test
import org.junit.runner.RunWith
import org.liftgate.R
import org.liftgate.shell.blocks.ControlView
import org.liftgate.shell.look.role
import org.robolectric.RobolectricTestRunner
import org.robolectric.RuntimeEnvironment
import uniffi.liftgate.Control
import uniffi.liftgate.Icon
import uniffi.liftgate.Weight

/** What can be done, what is chosen and what is closed are told apart without colour: measured as drawn, in grey. */
@RunWith(RobolectricTestRunner::class)
class GreyTest {
    private val looks = mapOf(
        "open" to Samples.control("Pack A"),
        "chosen" to Samples.control("Pack A", chosen = true),
        "closed" to Samples.control("Pack A", whyNot = "Not charged"),
        "quiet" to Samples.control("Pack A", weight = Weight.QUIET),
    )

    private fun drawn(control: Control, theme: Int): Bitmap {
        val context = ContextThemeWrapper(RuntimeEnvironment.getApplication(), theme)
        val view = ControlView(context) {}.apply { bind(control) }
        val (wide, high) = 400 to 160
        view.measure(View.MeasureSpec.makeMeasureSpec(wide, View.MeasureSpec.EXACTLY), View.MeasureSpec.makeMeasureSpec(high, View.MeasureSpec.EXACTLY))
        view.layout(0, 0, wide, high)
        return Bitmap.createBitmap(wide, high, Bitmap.Config.ARGB_8888).also {
            it.eraseColor(context.role(R.attr.paper))
            view.draw(Canvas(it))
        }
    }

    private fun grey(drawn: Bitmap): IntArray {
        val pixels = IntArray(drawn.width * drawn.height)
        drawn.getPixels(pixels, 0, drawn.width, 0, 0, drawn.width, drawn.height)
        return IntArray(pixels.size) { i -> (0.2126 * Color.red(pixels[i]) + 0.7152 * Color.green(pixels[i]) + 0.0722 * Color.blue(pixels[i])).toInt() }
    }

    @Test
    fun openChosenAndClosedDifferInGrey() {
        for (theme in listOf(R.style.Theme_Liftgate_Field, R.style.Theme_Liftgate_Workshop)) {
            val greys = looks.mapValues { grey(drawn(it.value, theme)) }
            for ((one, a) in greys) for ((other, b) in greys) if (one < other && "quiet" !in listOf(one, other)) {
                // Of the outline's own pixels, some thousandths of the whole, many have to differ by much.
                val differ = a.indices.count { abs(a[it] - b[it]) > 60 } / a.size.toDouble()
                assertTrue("$one and $other differ in %.3f of their place".format(differ), differ > 0.015)
            }
        }
    }

    @Test
    fun iconsDifferFromEachOtherInShape() {
        val theme = R.style.Theme_Liftgate_Field
        val greys = Icon.entries.filter { it != Icon.NONE }.associateWith { grey(drawn(Samples.control("x", icon = it), theme)) }
        for ((one, a) in greys) for ((other, b) in greys) if (one < other) {
            val differ = a.indices.count { abs(a[it] - b[it]) > 60 }
            assertTrue("$one and $other differ in $differ pixels", differ > 60)
        }
    }
}
