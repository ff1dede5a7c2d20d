package org.liftgate.shell

import android.graphics.drawable.StateListDrawable
import android.view.View
import android.view.ViewGroup
import android.widget.TextView
import org.junit.Assert.assertEquals
import org.junit.Assert.assertTrue
import org.junit.Rule
import org.junit.Test
import org.junit.rules.TemporaryFolder
import org.junit.runner.RunWith
import org.liftgate.R
import org.robolectric.RobolectricTestRunner

/** A page stands in views of the page before it, and shows nothing that a page made anew would not. */
@RunWith(RobolectricTestRunner::class)
class ReusedViewsTest {
    @get:Rule val folder = TemporaryFolder()

    private fun rows(phone: Phone): List<View> = phone.targets().filter { it.getTag(R.id.token) != null }

    /** All that a person or a screen reader gets of a view and those in it. */
    private fun told(view: View): List<String> {
        val text = (view as? TextView)?.let { "${it.text}/${it.textSize}/${it.currentTextColor}/${it.typeface?.isBold}/${it.lineCount}" }
        val own = listOf(
            view.javaClass.name, text, view.contentDescription, view.isClickable, view.isFocusable, view.isPressed, view.isFocused,
            view.getTag(R.id.token), view.minimumHeight, view.visibility, view.importantForAccessibility, view.isAccessibilityHeading,
            view.width, view.height, view.top, view.left, view.background is StateListDrawable,
        ).joinToString(" ")
        // What takes no room may still have the words of the page before: nobody gets them.
        if (view.visibility != View.VISIBLE) return listOf("nothing")
        val inner = if (view is ViewGroup) (0 until view.childCount).flatMap { told(view.getChildAt(it)) } else emptyList()
        return listOf(own) + inner
    }

    @Test
    fun aPageInUsedViewsIsAsOneMadeAnew() {
        val screens = listOf(Samples.card, Samples.check, Samples.bare, Samples.board, Samples.check, Samples.card)
        val core = FakeCore(Samples.board)
        Phone(folder.newFolder(), open = { _, _ -> core }).use { phone ->
            phone.launch()
            for (screen in screens) {
                core.screen = screen
                phone.lookAgain()
                val used = told(phone.decor.findViewById(R.id.page))
                phone.recreate()
                assertEquals(screen.name, told(phone.decor.findViewById(R.id.page)).joinToString("\n"), used.joinToString("\n"))
                // The window made anew has no views to use again: come back to it by way of the board.
                core.screen = Samples.board
                phone.lookAgain()
            }
        }
    }

    @Test
    fun rowsOfOnePageStandOnTheNext() {
        val core = FakeCore(Samples.board)
        Phone(folder.newFolder(), open = { _, _ -> core }).use { phone ->
            phone.launch()
            val before = rows(phone).toSet()
            core.screen = Samples.board.copy(name = "other", title = "Other", blocks = Samples.board.blocks.drop(2).reversed())
            phone.lookAgain()
            val after = rows(phone)
            assertTrue("${after.size} rows", after.size > 3)
            assertTrue("rows were made anew", after.count { it in before } >= 4)
        }
    }
}
