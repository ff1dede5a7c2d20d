package org.liftgate.shell.look

import android.content.Context
import android.graphics.Rect
import android.view.View
import android.widget.ScrollView

/**
 * A page that scrolls under a finger and by no will of its own for longer than a moment: what has to come into sight is there
 * at once. A page that still glides would take the next touch for the wish to stop it.
 */
open class Page(context: Context) : ScrollView(context) {
    init {
        isSmoothScrollingEnabled = false
    }

    override fun requestChildRectangleOnScreen(child: View, rectangle: Rect, immediate: Boolean): Boolean =
        super.requestChildRectangleOnScreen(child, rectangle, true)
}
