package org.liftgate.shell

import android.app.Application
import android.content.Context
import android.content.res.Configuration
import java.util.Locale
import org.liftgate.R
import uniffi.liftgate.Liftgate

/** Holds what outlives a screen: the store with its thread, and the person's choice of theme. */
class LiftgateApp : Application() {
    lateinit var core: Core
        private set

    /** How calls are said aloud while the clock runs. */
    var speakers: (Context) -> Speaker = ::PhoneVoice

    /** What waits for other apps. */
    val aside = Aside()

    /** The document that is being handed to the store; it outlives a turned screen. */
    var picked: Picked? = null

    /** The document that is being saved; it outlives a turned screen too. */
    var saving: Saving? = null

    /** The pilot's window, for what was begun in one that a turned screen has replaced since. */
    var front: PilotActivity? = null

    override fun onCreate() {
        super.onCreate()
        val journal = getDatabasePath(JOURNAL)
        use(
            Core(PhoneClock(this)) { now ->
                journal.parentFile?.mkdirs()
                Liftgate.open(journal.path, now, resources.configuration.locales[0].toLanguageTag())
            },
        )
    }

    /** Takes another core in place of the phone's own, for tests and the desk. */
    fun use(other: Core) {
        core = other
        core.speaks = { language = it }
    }

    /** The phone's language was changed while the app was open; the store follows it unless the person chose one. */
    override fun onConfigurationChanged(new: Configuration) {
        super.onConfigurationChanged(new)
        core.phoneSpeaks(new.locales[0].toLanguageTag())
    }

    /** The language that the store's words were in last, so that the shell's own few words are in the same; null at first. */
    var language: String?
        get() = choices().getString(LANGUAGE, null)
        private set(value) = choices().edit().putString(LANGUAGE, value).apply()

    /** [base] with its resources in that language. Which way a screen is laid out stays the phone's. */
    fun speaking(base: Context): Context {
        val tag = language ?: return base
        val phone = base.resources.configuration.locales[0]
        val spoken = Locale.forLanguageTag(tag)
        if (spoken.language == phone.language) return base
        return base.createConfigurationContext(
            Configuration(base.resources.configuration).apply {
                setLocale(spoken)
                setLayoutDirection(phone)
            },
        )
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
        const val LANGUAGE = "language"
    }
}
