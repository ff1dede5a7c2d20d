package org.liftgate.shell

import android.content.Context
import org.liftgate.R
import uniffi.liftgate.Block
import uniffi.liftgate.Control
import uniffi.liftgate.Icon
import uniffi.liftgate.LiftgateException
import uniffi.liftgate.Screen
import uniffi.liftgate.Weight

/** A screen that says what the core refused or failed at, in the core's own words. */
fun troubleScreen(context: Context, error: Throwable): Screen {
    // The core's errors are written for the person; anything else is a fault, shown with its kind for a report.
    val words = when (error) {
        is LiftgateException -> error.message
        else -> error.toString()
    }
    val again = context.getString(R.string.go_on)
    return Screen(
        name = "trouble",
        title = context.getString(R.string.not_done),
        above = context.getString(R.string.app_name),
        back = null,
        blocks = listOf(
            Block.Caution(words.orEmpty(), context.getString(R.string.not_done_help)),
        ),
        foot = listOf(Control("", again, null, Icon.NEXT, Weight.PRIMARY, true, null, false, again)),
        undo = null,
    )
}
