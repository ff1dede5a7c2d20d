package org.liftgate.shell.blocks

import android.content.Context
import android.graphics.BitmapFactory
import android.widget.ImageView
import org.liftgate.R
import org.liftgate.shell.look.column
import org.liftgate.shell.look.size
import uniffi.liftgate.Block

/** A photo across the width of the screen, with its shape kept. */
class PhotoBlock(context: Context) : BlockView {
    override val view = ImageView(context).apply {
        layoutParams = column(context.size(R.dimen.space_page))
        adjustViewBounds = true
    }
    private var shown: ByteArray? = null

    override fun bind(block: Block, typing: Boolean): Boolean {
        if (block !is Block.Photo) return false
        view.contentDescription = block.spoken
        if (!block.jpeg.contentEquals(shown)) {
            view.setImageBitmap(BitmapFactory.decodeByteArray(block.jpeg, 0, block.jpeg.size))
            shown = block.jpeg
        }
        return true
    }
}
