package org.liftgate.shell

import android.graphics.Bitmap
import android.graphics.Canvas
import android.graphics.Color
import android.view.ContextThemeWrapper
import android.view.View
import org.junit.Assert.assertEquals
import org.junit.Assert.assertTrue
import org.junit.Test
import org.junit.runner.RunWith
import org.liftgate.R
import org.liftgate.shell.look.EdgeBar
import org.liftgate.shell.look.role
import org.robolectric.RobolectricTestRunner
import org.robolectric.RuntimeEnvironment
import uniffi.liftgate.Edge

/** States are told by shape alone: each edge bar is measured as drawn, in grey. */
@RunWith(RobolectricTestRunner::class)
class EdgeBarTest {
    private val states = listOf(Edge.FRESH, Edge.STALE, Edge.MISSING, Edge.STOP, Edge.CAUTION)

    private fun drawn(edge: Edge, theme: Int, direction: Int = View.LAYOUT_DIRECTION_LTR): Bitmap {
        val context = ContextThemeWrapper(RuntimeEnvironment.getApplication(), theme)
        val bar = EdgeBar(context).apply {
            this.edge = edge
            layoutDirection = direction
        }
        val wide = context.resources.getDimensionPixelSize(R.dimen.edge_bar)
        val high = context.resources.getDimensionPixelSize(R.dimen.target)
        bar.layout(0, 0, wide, high)
        val bitmap = Bitmap.createBitmap(wide, high, Bitmap.Config.ARGB_8888)
        bitmap.eraseColor(context.role(R.attr.paper))
        bar.draw(Canvas(bitmap))
        return bitmap
    }

    private fun grey(bitmap: Bitmap): List<Int> = (0 until bitmap.width * bitmap.height).map {
        val colour = bitmap.getPixel(it % bitmap.width, it / bitmap.width)
        (Color.red(colour) + Color.green(colour) + Color.blue(colour)) / 3
    }

    @Test
    fun everyStateDiffersFromEveryOtherInGreyByAQuarterOfTheBar() {
        for (theme in listOf(R.style.Theme_Liftgate_Field, R.style.Theme_Liftgate_Workshop)) {
            val greys = states.associateWith { grey(drawn(it, theme)) }
            for (one in states) for (other in states.dropWhile { it != one }.drop(1)) {
                val pairs = greys.getValue(one).zip(greys.getValue(other))
                val part = pairs.count { (a, b) -> kotlin.math.abs(a - b) > 100 } / pairs.size.toDouble()
                assertTrue("$one and $other differ in %.2f of the bar".format(part), part >= 0.20)
            }
        }
    }

    @Test
    fun theFilledPartIsWhatTheShapeSays() {
        val theme = R.style.Theme_Liftgate_Field
        val dark = states.associateWith { edge -> grey(drawn(edge, theme)).let { all -> all.count { it < 100 } / all.size.toDouble() } }
        assertEquals(1.0, dark.getValue(Edge.FRESH), 0.01)
        assertTrue("hollow $dark", dark.getValue(Edge.MISSING) in 0.25..0.50)
        assertTrue("hatched $dark", dark.getValue(Edge.STALE) in 0.45..0.85)
        assertTrue("notched $dark", dark.getValue(Edge.STOP) in 0.50..0.75)
        assertTrue("doubled $dark", dark.getValue(Edge.CAUTION) in 0.60..0.70)
    }

    @Test
    fun theNotchesAreOnTheTrailingSideInBothDirectionsOfWriting() {
        val theme = R.style.Theme_Liftgate_Field
        for ((direction, leading) in listOf(View.LAYOUT_DIRECTION_LTR to true, View.LAYOUT_DIRECTION_RTL to false)) {
            val bar = drawn(Edge.STOP, theme, direction)
            fun darkIn(x: Int) = (0 until bar.height).count { Color.red(bar.getPixel(x, it)) < 100 }
            val first = darkIn(1)
            val last = darkIn(bar.width - 2)
            assertEquals("dark at the left $first, at the right $last", leading, first > last)
        }
    }
}
