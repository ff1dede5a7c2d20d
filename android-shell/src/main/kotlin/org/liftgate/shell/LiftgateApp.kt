package org.liftgate.shell

import android.app.Application
import android.content.Context
import java.util.Locale
import org.liftgate.R
import uniffi.liftgate.Liftgate

/** Holds what outlives a screen: the store with its thread, and the person's choice of theme. */
class LiftgateApp : Application() {
    lateinit var core: Core
        private set

    /** How calls are said aloud while the clock runs. */
    var speakers: (Context) -> Speaker = ::PhoneVoice

    override fun onCreate() {
        super.onCreate()
        val journal = getDatabasePath(JOURNAL)
        use(
            Core(PhoneClock(this)) { now ->
                journal.parentFile?.mkdirs()
                Liftgate.open(journal.path, now, Locale.getDefault().toLanguageTag())
            },
        )
    }

    /** Takes another core in place of the phone's own, for tests and the desk. */
    fun use(other: Core) {
        core = other
    }

    /** The light theme for the field unless the person chose the dark one for the workshop. */
    var workshop: Boolean
        get() = choices().getBoolean(WORKSHOP, false)
        set(value) = choices().edit().putBoolean(WORKSHOP, value).apply()

    val theme: Int get() = if (workshop) R.style.Theme_Liftgate_Workshop else R.style.Theme_Liftgate_Field

    private fun choices() = getSharedPreferences("look", MODE_PRIVATE)

    private companion object {
        const val JOURNAL = "liftgate.db"
        const val WORKSHOP = "workshop"
    }
}
