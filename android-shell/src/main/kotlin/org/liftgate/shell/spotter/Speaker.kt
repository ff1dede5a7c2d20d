package org.liftgate.shell

import android.content.Context
import android.media.AudioAttributes
import android.media.AudioManager
import android.media.ToneGenerator
import android.speech.tts.TextToSpeech

/** Says calls aloud while the clock runs. */
interface Speaker {
    fun say(words: String)
    fun close()
}

/**
 * The phone's own voice where it has one that works without a network; a tone otherwise, so that a call is never
 * missed in silence.
 */
class PhoneVoice(private val context: Context) : Speaker {
    private var ready: Boolean? = null
    private var early: String? = null
    private var tone: ToneGenerator? = null
    private val voice = TextToSpeech(context.applicationContext) { status ->
        ready = status == TextToSpeech.SUCCESS && chooseVoice()
        early?.let(::say)
        early = null
    }

    private fun chooseVoice(): Boolean {
        // The calls are the store's words: they are in the window's language, which may be another than the phone's.
        val language = context.resources.configuration.locales[0].language
        val found = runCatching { voice.voices }.getOrNull().orEmpty()
            .firstOrNull { it.locale.language == language && !it.isNetworkConnectionRequired }
            ?: return false
        voice.voice = found
        voice.setAudioAttributes(
            AudioAttributes.Builder().setUsage(AudioAttributes.USAGE_ASSISTANCE_NAVIGATION_GUIDANCE)
                .setContentType(AudioAttributes.CONTENT_TYPE_SPEECH).build(),
        )
        return true
    }

    override fun say(words: String) {
        when (ready) {
            null -> early = words
            true -> if (voice.speak(words, TextToSpeech.QUEUE_ADD, null, words) != TextToSpeech.SUCCESS) sound()
            false -> sound()
        }
    }

    private fun sound() {
        // The tone generator throws where the phone has no free track; there is then nothing left to sound with.
        runCatching {
            val ringing = tone ?: ToneGenerator(AudioManager.STREAM_MUSIC, ToneGenerator.MAX_VOLUME).also { tone = it }
            ringing.startTone(ToneGenerator.TONE_PROP_BEEP2, TONE_MS)
        }
    }

    override fun close() {
        voice.shutdown()
        tone?.release()
        tone = null
    }

    private companion object {
        const val TONE_MS = 500
    }
}
