package org.liftgate.shell

import android.content.Context
import android.os.SystemClock
import android.provider.Settings
import java.util.TimeZone
import uniffi.liftgate.Moment

/** Where the shell gets its time from; tests bring their own. */
interface Clock {
    /** Now, by the wall clock with its offset and by the clock that only runs forward since the phone started. */
    fun now(): Moment
}

/** The phone's own clocks. The count of starts tells whether two readings of the running clock can be compared. */
class PhoneClock(context: Context) : Clock {
    private val boot = "boot-" + Settings.Global.getInt(context.contentResolver, Settings.Global.BOOT_COUNT, 0)

    override fun now(): Moment {
        val wall = System.currentTimeMillis()
        return Moment(
            wallMs = wall,
            offsetMin = TimeZone.getDefault().getOffset(wall) / MS_A_MINUTE,
            monotonicMs = SystemClock.elapsedRealtime(),
            boot = boot,
        )
    }

    private companion object {
        const val MS_A_MINUTE = 60_000
    }
}
