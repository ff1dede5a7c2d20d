package org.liftgate.shell.blocks

import android.content.Context
import android.os.Build
import android.view.View
import android.view.ViewGroup
import android.widget.LinearLayout
import org.liftgate.R
import org.liftgate.shell.look.EdgeBar
import org.liftgate.shell.look.column
import org.liftgate.shell.look.icon
import org.liftgate.shell.look.put
import org.liftgate.shell.look.quantity
import org.liftgate.shell.look.rest
import org.liftgate.shell.look.role
import org.liftgate.shell.look.size
import org.liftgate.shell.look.text
import uniffi.liftgate.Block
import uniffi.liftgate.Edge
import uniffi.liftgate.Tone

/** A line of views: the edge bar at the leading side over the whole height, then [content]. */
internal fun Context.edged(bar: EdgeBar, content: View): LinearLayout = LinearLayout(this).apply {
    orientation = LinearLayout.HORIZONTAL
    addView(bar, LinearLayout.LayoutParams(ViewGroup.LayoutParams.WRAP_CONTENT, ViewGroup.LayoutParams.MATCH_PARENT))
    addView(content, rest())
}

/** Sets the distance to what stands above. */
internal fun View.gap(dimen: Int) {
    val wanted = context.size(dimen)
    val now = layoutParams as ViewGroup.MarginLayoutParams
    if (now.topMargin == wanted) return
    now.topMargin = wanted
    layoutParams = now
}

internal fun View.heading() {
    if (Build.VERSION.SDK_INT >= Build.VERSION_CODES.P) isAccessibilityHeading = true
}

/** The sentence that a screen comes down to, in large type. */
class VerdictView(private val context: Context) : BlockView {
    private val bar = EdgeBar(context)
    private val sentence = context.text(R.style.Text_Sentence)
    private val detail = context.text(R.style.Text)
    private val words = LinearLayout(context).apply {
        orientation = LinearLayout.VERTICAL
        addView(sentence, column())
        addView(detail, column(context.size(R.dimen.space_small)))
    }
    override val standsFor get() = Block.Verdict::class.java
    override val view = context.edged(bar, words).apply {
        layoutParams = column(context.size(R.dimen.space_page))
    }

    override fun bind(block: Block, typing: Boolean): Boolean {
        if (block !is Block.Verdict) return false
        bar.edge = block.edge
        val inset = if (block.edge == Edge.NONE) 0 else context.size(R.dimen.space_page)
        val high = if (block.edge == Edge.NONE) 0 else context.size(R.dimen.space_hair)
        words.setPaddingRelative(inset, high, 0, high)
        sentence.put(block.text)
        detail.put(block.detail)
        return true
    }
}

class HeadingView(context: Context) : BlockView {
    private val title = context.text(R.style.Text_Heading)
    private val note = context.text(R.style.Text_Label)
    override val standsFor get() = Block.Heading::class.java
    override val view = LinearLayout(context).apply {
        orientation = LinearLayout.VERTICAL
        layoutParams = column(context.size(R.dimen.space_large))
        val rule = View(context).apply { setBackgroundColor(context.role(R.attr.ink)) }
        addView(rule, LinearLayout.LayoutParams(ViewGroup.LayoutParams.MATCH_PARENT, context.size(R.dimen.line)))
        addView(title, column(context.size(R.dimen.space_small)))
        addView(note, column(context.size(R.dimen.space_hair)))
        title.heading()
    }

    override fun bind(block: Block, typing: Boolean): Boolean {
        if (block !is Block.Heading) return false
        title.put(block.text)
        note.put(block.note)
        return true
    }
}

class ParagraphView(private val context: Context) : BlockView {
    private val words = context.text(R.style.Text)
    override val standsFor get() = Block.Paragraph::class.java
    override val view: View = words.apply { layoutParams = column(context.size(R.dimen.space)) }

    override fun bind(block: Block, typing: Boolean): Boolean {
        if (block !is Block.Paragraph) return false
        if (tone != block.tone) words.setTextAppearance(styleOf(block.tone))
        tone = block.tone
        words.put(block.text)
        return true
    }

    /** As it was dressed last: to look a style up takes longer than to set the words. */
    private var tone = Tone.PLAIN

    private fun styleOf(tone: Tone) = when (tone) {
        Tone.PLAIN -> R.style.Text
        Tone.QUIET -> R.style.Text_Quiet
        Tone.STRONG -> R.style.Text_Strong
        Tone.CALL -> R.style.Text_Call
    }
}

/** Stands out by its thick rules and its own sign, in any light and without colour. */
class CautionView(context: Context) : BlockView {
    private val title = context.text(R.style.Text_Row)
    private val words = context.text(R.style.Text)
    private val first = rule(context)
    override val standsFor get() = Block.Caution::class.java
    override val view = LinearLayout(context).apply {
        orientation = LinearLayout.VERTICAL
        layoutParams = column(context.size(R.dimen.space_page))
        addView(first)
        addView(
            LinearLayout(context).apply {
                orientation = LinearLayout.HORIZONTAL
                val pad = context.size(R.dimen.space)
                setPadding(0, pad, 0, pad)
                val sign = context.icon(R.dimen.icon_field).apply { put(R.drawable.ic_warning, context.role(R.attr.ink)) }
                (sign.layoutParams as LinearLayout.LayoutParams).marginEnd = pad
                addView(sign)
                addView(
                    LinearLayout(context).apply {
                        orientation = LinearLayout.VERTICAL
                        addView(title, column())
                        addView(words, column(context.size(R.dimen.space_hair)))
                    },
                    rest(),
                )
            },
            column(),
        )
        addView(rule(context))
    }

    private fun rule(context: Context) = View(context).apply {
        setBackgroundColor(context.role(R.attr.ink))
        layoutParams = LinearLayout.LayoutParams(
            ViewGroup.LayoutParams.MATCH_PARENT, context.size(R.dimen.line_thick),
        )
    }

    override fun bind(block: Block, typing: Boolean): Boolean {
        if (block !is Block.Caution) return false
        title.put(block.title)
        words.put(block.text)
        return true
    }

    /** Cautions one after another share the rule between them. */
    override fun follow(above: Block?) {
        val joined = above is Block.Caution
        first.visibility = if (joined) View.GONE else View.VISIBLE
        view.gap(if (joined) R.dimen.none else R.dimen.space_page)
    }
}

/** One number that matters, big, with its unit small beside it. */
class FigureView(private val context: Context) : BlockView {
    private val bar = EdgeBar(context)
    private val label = context.text(R.style.Text_Label)
    private val value = context.text(R.style.Text_Value)
    private val note = context.text(R.style.Text_Quiet)
    private val words = LinearLayout(context).apply {
        orientation = LinearLayout.VERTICAL
        for (part in listOf(label, value, note)) addView(part, column())
    }
    override val standsFor get() = Block.Figure::class.java
    override val view = context.edged(bar, words).apply {
        layoutParams = column(context.size(R.dimen.space_page))
    }

    override fun bind(block: Block, typing: Boolean): Boolean {
        if (block !is Block.Figure) return false
        bar.edge = block.edge
        words.setPaddingRelative(if (block.edge == Edge.NONE) 0 else context.size(R.dimen.space_page), 0, 0, 0)
        label.put(block.label)
        value.put(context.quantity(block.value, block.unit))
        note.put(block.note)
        return true
    }
}

/** A value that may be a slip of the finger, or what to know before entering one. */
internal class Remarks(context: Context) {
    private val flag = context.text(R.style.Text_Strong)
    private val hint = context.text(R.style.Text_Label)
    private val flagged = LinearLayout(context).apply {
        orientation = LinearLayout.HORIZONTAL
        val sign = context.icon(R.dimen.icon).apply { put(R.drawable.ic_warning, context.role(R.attr.ink)) }
        (sign.layoutParams as LinearLayout.LayoutParams).marginEnd = context.size(R.dimen.space_small)
        addView(sign)
        addView(flag, rest())
    }
    val view = LinearLayout(context).apply {
        orientation = LinearLayout.VERTICAL
        addView(flagged, column(context.size(R.dimen.space_small)))
        addView(hint, column(context.size(R.dimen.space_hair)))
    }

    fun put(flagWords: String?, hintWords: String?) {
        flagged.visibility = if (flagWords.isNullOrEmpty()) View.GONE else View.VISIBLE
        flag.put(flagWords)
        hint.put(hintWords)
    }

    /** Says why what stands in the field was refused, in place of what is flagged there: the reason is said once. */
    fun refuse(reason: String) {
        flagged.visibility = View.VISIBLE
        flag.put(reason)
    }
}
