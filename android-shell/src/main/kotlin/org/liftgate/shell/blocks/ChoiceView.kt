package org.liftgate.shell.blocks

import android.content.Context
import android.widget.LinearLayout
import org.liftgate.R
import org.liftgate.shell.look.Flow
import org.liftgate.shell.look.column
import org.liftgate.shell.look.put
import org.liftgate.shell.look.size
import org.liftgate.shell.look.text
import uniffi.liftgate.Block
import uniffi.liftgate.Control

/** A few answers side by side; the chosen one is filled and ticked. */
class ChoiceView(private val context: Context, private val taps: Taps) : BlockView {
    private val label = context.text(R.style.Text_Row)
    private val options = Controls(context, Flow(context), taps)
    override val standsFor get() = Block.Choice::class.java
    override val view = LinearLayout(context).apply {
        orientation = LinearLayout.VERTICAL
        layoutParams = column(context.size(R.dimen.space_page))
        addView(label, column())
        addView(options.group, column(context.size(R.dimen.space_small)))
    }

    override fun bind(block: Block, typing: Boolean): Boolean {
        if (block !is Block.Choice) return false
        label.put(block.label)
        view.tag = block.label
        options.bind(block.options)
        options.group.gap(if (block.label.isEmpty()) R.dimen.none else R.dimen.space_small)
        return true
    }

    /** Controls without words of their own belong to what stands above them, and stand as near to it as a finger allows. */
    override fun follow(above: Block?) {
        val belongs = above != null && label.text.isEmpty()
        view.gap(if (belongs) R.dimen.target_gap else R.dimen.space_page)
    }
}

/** Controls in a [group], the same views given the next controls as long as there are enough of them. */
class Controls(private val context: Context, val group: Flow, private val taps: Taps) {
    private var shape = Shape.WORDS

    /** Views that the controls before needed and these do not: to make one takes longer than to fill it anew. */
    private val spare = ArrayDeque<ControlView>()

    fun bind(controls: List<Control>, shaped: Shape = Shape.WORDS) {
        if (shaped != shape) {
            group.removeAllViews()
            spare.clear()
        }
        shape = shaped
        while (group.childCount > controls.size) {
            spare += group.getChildAt(group.childCount - 1) as ControlView
            group.removeViewAt(group.childCount - 1)
        }
        controls.forEachIndexed { i, control ->
            if (i == group.childCount) group.addView(spare.removeLastOrNull() ?: ControlView(context, shape, taps::tapped))
            (group.getChildAt(i) as ControlView).bind(control)
        }
    }
}
