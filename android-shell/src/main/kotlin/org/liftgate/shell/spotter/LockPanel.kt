package org.liftgate.shell.spotter

import android.content.Context
import android.view.View
import android.widget.LinearLayout
import org.liftgate.R
import org.liftgate.shell.blocks.CodePadView
import org.liftgate.shell.blocks.ControlView
import org.liftgate.shell.look.column
import org.liftgate.shell.look.put
import org.liftgate.shell.look.size
import org.liftgate.shell.look.text
import uniffi.liftgate.Control
import uniffi.liftgate.Icon
import uniffi.liftgate.SpotterAct
import uniffi.liftgate.SpotterControl
import uniffi.liftgate.SpotterLock
import uniffi.liftgate.Weight

/** What a spotter's control looks like where a tap is enough. */
fun SpotterControl.plain(detail: String? = null) =
    Control("", label, detail, icon, Weight.PLAIN, true, null, false, listOfNotNull(label, detail).joinToString(". "))

/** The way back to the pilot's side: the keys for the code, the way without it, and the way back to the flight. */
class LockPanel(context: Context, onAct: (SpotterAct) -> Unit, onCode: (String) -> Unit, onClose: () -> Unit) {
    private val refusal = context.text(R.style.Text_Strong).apply {
        accessibilityLiveRegion = View.ACCESSIBILITY_LIVE_REGION_ASSERTIVE
        visibility = View.GONE
    }
    private val pad = CodePadView(context) {
        refuse(null)
        onCode(it)
    }
    private var act: SpotterAct? = null
    private val without = ControlView(context) { act?.let(onAct) }
    private val close = ControlView(context) {
        refuse(null)
        onClose()
    }
    val view = LinearLayout(context).apply {
        orientation = LinearLayout.VERTICAL
        addView(refusal, column())
        addView(pad.view, column())
        val gap = context.size(R.dimen.space_page)
        addView(without, column(gap))
        addView(close, column(context.size(R.dimen.target_gap)))
    }

    init {
        val words = context.getString(R.string.back_to_flight)
        close.bind(Control("", words, null, Icon.BACK, Weight.PLAIN, true, null, false, words))
    }

    fun show(lock: SpotterLock?) {
        if (lock == null) return
        pad.bind(lock.pad, false)
        act = lock.without.act
        without.bind(lock.without.plain(lock.withoutNote))
    }

    fun refuse(reason: String?) = refusal.put(reason)
}
