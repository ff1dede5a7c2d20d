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
    val again = context.getString(R.string.go_on)
    return Screen(
        name = "trouble",
        title = context.getString(R.string.not_done),
        above = context.getString(R.string.app_name),
        back = null,
        blocks = listOf(
            Block.Caution(reason(error), context.getString(R.string.not_done_help)),
        ),
        foot = listOf(Control("", again, null, Icon.NEXT, Weight.PRIMARY, true, null, false, again)),
        undo = null,
        work = null,
    )
}

/** The core's errors are written for the person; anything else is a fault, shown with its kind for a report. */
private fun reason(error: Throwable): String = when (error) {
    is LiftgateException.Refused -> error.reason
    is LiftgateException.NotYourTurn -> error.reason
    is LiftgateException.StorageFull -> error.reason
    is LiftgateException.OpenElsewhere -> error.reason
    is LiftgateException.NewerJournal -> error.reason
    is LiftgateException.NotReadable -> error.reason
    is LiftgateException.Storage -> error.reason
    else -> error.toString()
}
