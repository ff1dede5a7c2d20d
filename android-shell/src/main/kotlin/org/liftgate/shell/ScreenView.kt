package org.liftgate.shell

import android.content.Context
import android.graphics.Rect
import android.os.Bundle
import android.view.Gravity
import android.view.View
import android.view.ViewGroup
import android.view.WindowInsets
import android.widget.LinearLayout
import org.liftgate.R
import org.liftgate.shell.blocks.BlockView
import org.liftgate.shell.blocks.Taps
import org.liftgate.shell.blocks.heading
import org.liftgate.shell.blocks.viewOf
import org.liftgate.shell.look.Page
import org.liftgate.shell.look.column
import org.liftgate.shell.look.put
import org.liftgate.shell.look.role
import org.liftgate.shell.look.size
import org.liftgate.shell.look.standsBeside
import org.liftgate.shell.look.text
import uniffi.liftgate.Block
import uniffi.liftgate.Screen

/**
 * Lays out a screen that the core sent: a page that scrolls, and a foot within the thumb's reach with the way back,
 * the main action and the undoing of the last thing. On a wide screen the foot stands beside the page.
 *
 * A screen that follows one of the same kind is shown in the same views, so that a finger, a reader's focus and the
 * place on the page stay where they are.
 */
class ScreenView(context: Context, private val taps: Taps) : LinearLayout(context) {
    private val above = context.text(R.style.Text_Label)
    private val title = context.text(R.style.Text_Title).apply { heading() }
    private val corner = LinearLayout(context)
    private val head = LinearLayout(context).apply {
        orientation = HORIZONTAL
        gravity = Gravity.CENTER_VERTICAL
        val words = LinearLayout(context).apply {
            orientation = VERTICAL
            addView(above, column())
            addView(title, column())
        }
        addView(words, LayoutParams(0, ViewGroup.LayoutParams.WRAP_CONTENT, 1f))
        addView(corner)
    }
    private val blocks = LinearLayout(context).apply { orientation = VERTICAL }
    private val page = Column(context).apply {
        orientation = VERTICAL
        val side = context.size(R.dimen.space_page)
        setPadding(side, context.size(R.dimen.space), side, context.size(R.dimen.space_large))
        addView(head, column())
        addView(blocks, column())
        // Takes the first focus, so that no keyboard opens before a field is touched.
        isFocusableInTouchMode = true
    }
    private val scroll = Page(context).apply {
        id = R.id.page
        isFillViewport = true
        addView(page)
    }
    private val foot = Foot(context, taps)
    private val beside = resources.configuration.standsBeside(BESIDE_BELOW_DP)
    private val kept = mutableMapOf<String, Int>()
    private val views = mutableListOf<BlockView>()

    /** Views that stood on a page before and show nothing of their own, by kind: to make one takes longer than to fill it anew. */
    private val idle = mutableMapOf<Class<out Block>, ArrayDeque<BlockView>>()
    private var shown: Screen? = null
    private var lastSaid: String? = null

    /** Whether there is a screen to say something on. */
    val isShowing: Boolean get() = shown != null

    /** A view in the top corner of screens that have no way back: the shell's own switch of theme. */
    var switch: View? = null

    init {
        setBackgroundColor(context.role(R.attr.paper))
        orientation = if (beside) HORIZONTAL else VERTICAL
        if (beside) {
            addView(scroll, LayoutParams(0, ViewGroup.LayoutParams.MATCH_PARENT, 1f))
            addView(rule(), LayoutParams(context.size(R.dimen.line), ViewGroup.LayoutParams.MATCH_PARENT))
            addView(foot, LayoutParams(context.size(R.dimen.side_foot), ViewGroup.LayoutParams.MATCH_PARENT))
        } else {
            addView(scroll, LayoutParams(ViewGroup.LayoutParams.MATCH_PARENT, 0, 1f))
            addView(rule(), LayoutParams(ViewGroup.LayoutParams.MATCH_PARENT, context.size(R.dimen.line)))
            addView(foot, LayoutParams(ViewGroup.LayoutParams.MATCH_PARENT, ViewGroup.LayoutParams.WRAP_CONTENT))
        }
    }

    private fun rule() = View(context).apply { setBackgroundColor(context.role(R.attr.ink)) }

    /** Where the person is on the page and what was said last, for another window that takes this one's place. */
    fun keep(state: Bundle) {
        shown?.let { kept[place(it)] = scroll.scrollY }
        state.putStringArray(PLACES, kept.keys.toTypedArray())
        state.putIntArray(HEIGHTS, kept.values.toIntArray())
        state.putString(SAID, lastSaid)
    }

    fun restore(state: Bundle) {
        val heights = state.getIntArray(HEIGHTS) ?: return
        state.getStringArray(PLACES)?.forEachIndexed { i, place -> kept[place] = heights[i] }
        lastSaid = state.getString(SAID)
    }

    override fun onApplyWindowInsets(insets: WindowInsets): WindowInsets {
        val (left, top, right, bottom) = ShellActivity.taken(insets)
        setPadding(left, top, right, bottom)
        // While the keyboard is up, the page needs the room more than the lesser actions do.
        foot.compact(bottom > resources.displayMetrics.heightPixels * KEYBOARD)
        return insets
    }

    /**
     * Shows [screen]; [said] is what was just recorded, if anything, and stays until something else is done. With
     * [typing] it is the same screen, looked at again while a field is being typed in.
     */
    fun show(screen: Screen, said: String?, typing: Boolean = false) {
        val before = shown
        lastSaid = said ?: lastSaid.takeIf { before == null || same(before, screen) && screen.undo == before.undo }
        before?.let { kept[place(it)] = scroll.scrollY }
        val same = before != null && same(before, screen)
        shown = screen
        above.put(screen.above)
        title.put(screen.title)
        corner(screen)
        fill(screen, same, typing)
        foot.show(screen, lastSaid, beside)
        if (!same) scrollTo(kept[place(screen)] ?: 0)
        if (!same && before != null) announce(screen.title)
    }

    /**
     * Says why the last tap was refused, once: at the [field] to mend, which comes into sight with it, on the screen as it stands; else
     * in the foot.
     */
    fun refuse(field: String?, reason: String) {
        announce(reason)
        val remark = field?.let { called -> views.firstNotNullOfOrNull { it.refuse(called, reason) } }
        foot.refuse(reason.takeIf { remark == null })
        val mended = remark?.parent as? View ?: return
        post {
            mended.requestRectangleOnScreen(Rect(0, 0, mended.width, mended.height), true)
            // Where there is no room for both, the words come before what they are about.
            remark.requestRectangleOnScreen(Rect(0, 0, remark.width, remark.height), true)
        }
    }

    private fun corner(screen: Screen) {
        corner.removeAllViews()
        if (screen.back == null) switch?.let(corner::addView)
    }

    private fun fill(screen: Screen, same: Boolean, typing: Boolean) {
        if (!same) {
            blocks.removeAllViews()
            views.forEach(::putAway)
            views.clear()
        }
        while (views.size > screen.blocks.size) {
            blocks.removeViewAt(blocks.childCount - 1)
            putAway(views.removeAt(views.size - 1))
        }
        screen.blocks.forEachIndexed { i, block ->
            if (i >= views.size || !views[i].bind(block, typing)) place(i, block)
            views[i].follow(screen.blocks.getOrNull(i - 1))
        }
    }

    /** A new view for [block] at place [i], in place of the one that stood there. */
    private fun place(i: Int, block: Block) {
        val made = takenUp(block) ?: context.viewOf(block, taps).also { it.bind(block, false) }
        if (i < views.size) {
            blocks.removeViewAt(i)
            putAway(views[i])
            views[i] = made
        } else {
            views += made
        }
        blocks.addView(made.view, i)
    }

    private fun putAway(view: BlockView) {
        view.standsFor?.let { idle.getOrPut(it) { ArrayDeque() } += view }
    }

    private fun takenUp(block: Block): BlockView? = idle[block::class.java]?.removeLastOrNull()?.takeIf { it.bind(block, false) }

    private fun scrollTo(y: Int) {
        scroll.scrollTo(0, 0)
        if (y > 0) scroll.post { scroll.scrollTo(0, y) }
    }

    /** Says [words] aloud where a screen reader is on. */
    fun announce(words: String) = announceForAccessibility(words)

    private fun same(one: Screen, other: Screen) = one.name == other.name && one.title == other.title

    private fun place(screen: Screen) = screen.name + '\n' + screen.title

    /** A column no wider than can be read at ease, in the middle of what there is. */
    private class Column(context: Context) : LinearLayout(context) {
        private val widest = context.size(R.dimen.page_widest)
        override fun onMeasure(widthSpec: Int, heightSpec: Int) {
            val wide = MeasureSpec.getSize(widthSpec)
            val side = maxOf(context.size(R.dimen.space_page), (wide - widest) / 2)
            setPadding(side, paddingTop, side, paddingBottom)
            super.onMeasure(widthSpec, heightSpec)
        }
    }

    private companion object {
        const val BESIDE_BELOW_DP = 600

        /** What takes more of the height than this at the bottom is a keyboard, no bar. */
        const val KEYBOARD = 0.2f
        const val PLACES = "places"
        const val HEIGHTS = "heights"
        const val SAID = "said"
    }
}
