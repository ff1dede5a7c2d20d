package org.liftgate.shell.blocks

import android.content.Context
import android.view.View
import uniffi.liftgate.Block
import uniffi.liftgate.Control
import uniffi.liftgate.PlotFingers

/** What a screen's views report back: a control taken up, a field's new text, a field done with. */
interface Taps {
    fun tapped(control: Control)
    fun edited(field: String, text: String)
    fun finished(field: String)

    /** A code was typed on the keys for it. */
    fun coded(digits: String) = Unit

    /** Fingers moved the plot that goes with [token]; [then] gets the plot as it is after it. */
    fun fingers(token: String, fingers: PlotFingers, then: (Block) -> Unit) = Unit
}

/** A view of one kind of block, which can be given another block of its kind without being made anew. */
interface BlockView {
    val view: View

    /**
     * Shows [block]; false where it is of another kind, or of another field, and needs another view. With [typing]
     * the block comes back while a field is being typed in, whose text is then left alone.
     */
    fun bind(block: Block, typing: Boolean): Boolean

    /**
     * Says at the field called [field] why what stands there was refused, until another block is shown; returns what has to come into
     * sight with it. Null where this is not the view of that field.
     */
    fun refuse(field: String, reason: String): View? = null

    /**
     * The kind of block that this view can stand for on another page too, since it shows nothing but its block. Null where it keeps
     * something of its own: what is typed, where fingers are.
     */
    val standsFor: Class<out Block>? get() = null

    /** Fits the view to the block above it; null where there is none. */
    fun follow(above: Block?) = Unit
}

/** A new view for [block]; one line for each kind the core can send. */
fun Context.viewOf(block: Block, taps: Taps): BlockView = when (block) {
    is Block.Verdict -> VerdictView(this)
    is Block.Heading -> HeadingView(this)
    is Block.Paragraph -> ParagraphView(this)
    is Block.Caution -> CautionView(this)
    is Block.Row -> RowView(this, taps)
    is Block.Figure -> FigureView(this)
    is Block.Stepper -> StepperView(this, taps)
    is Block.Choice -> ChoiceView(this, taps)
    is Block.Entry -> EntryView(this, taps)
    is Block.CodePad -> CodePadView(this, taps::coded)
    is Block.Drawing -> DrawingBlock(this)
    is Block.Photo -> PhotoBlock(this)
    is Block.Plot -> PlotBlock(this, taps)
}
