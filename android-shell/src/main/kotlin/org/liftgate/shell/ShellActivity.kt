package org.liftgate.shell

import android.app.Activity
import android.content.Context
import android.os.Build
import android.os.Bundle
import android.view.HapticFeedbackConstants
import android.view.View
import android.view.WindowInsets
import android.window.OnBackInvokedCallback
import android.window.OnBackInvokedDispatcher
import java.util.Locale

/** What both of the shell's activities share: the theme, drawing edge to edge, and the way back on every version. */
abstract class ShellActivity : Activity() {
    protected val app: LiftgateApp get() = application as LiftgateApp
    protected val core: Core get() = app.core

    /** A back callback of the framework's newer kind; null below Android 13. Kept so that it can be taken back. */
    private var backCallback: Any? = null
    private var onBack: (() -> Unit)? = null

    private var language: String? = null

    override fun attachBaseContext(base: Context) {
        val app = base.applicationContext as LiftgateApp
        language = app.language
        super.attachBaseContext(app.speaking(base))
    }

    override fun onCreate(savedInstanceState: Bundle?) {
        setTheme(app.theme)
        super.onCreate(savedInstanceState)
        edgeToEdge()
    }

    /** Makes the window anew where the store speaks another language than the window's own words are in. */
    protected fun speakAsTheStore() {
        val tag = app.language?.takeIf { it != language } ?: return
        if (Locale.forLanguageTag(tag).language != resources.configuration.locales[0].language) recreate()
    }

    @Suppress("DEPRECATION") // the only way below Android 11
    private fun edgeToEdge() {
        if (Build.VERSION.SDK_INT >= Build.VERSION_CODES.R) {
            window.setDecorFitsSystemWindows(false)
        } else {
            val decor = window.decorView
            decor.systemUiVisibility = decor.systemUiVisibility or View.SYSTEM_UI_FLAG_LAYOUT_STABLE or
                View.SYSTEM_UI_FLAG_LAYOUT_FULLSCREEN or View.SYSTEM_UI_FLAG_LAYOUT_HIDE_NAVIGATION
        }
    }

    /** What the back gesture or button does now; null leaves it to the phone. */
    protected fun back(does: (() -> Unit)?) {
        onBack = does
        if (Build.VERSION.SDK_INT < Build.VERSION_CODES.TIRAMISU) return
        (backCallback as OnBackInvokedCallback?)?.let(onBackInvokedDispatcher::unregisterOnBackInvokedCallback)
        backCallback = does?.let { act ->
            OnBackInvokedCallback { act() }.also {
                onBackInvokedDispatcher.registerOnBackInvokedCallback(OnBackInvokedDispatcher.PRIORITY_DEFAULT, it)
            }
        }
    }

    @Deprecated("Android 13 and later use the callback; this is the way below.")
    @Suppress("DEPRECATION")
    override fun onBackPressed() {
        onBack?.invoke() ?: super.onBackPressed()
    }

    protected fun confirm(view: View) {
        if (Build.VERSION.SDK_INT >= Build.VERSION_CODES.R) {
            view.performHapticFeedback(HapticFeedbackConstants.CONFIRM)
        }
    }

    protected fun reject(view: View) {
        if (Build.VERSION.SDK_INT >= Build.VERSION_CODES.R) {
            view.performHapticFeedback(HapticFeedbackConstants.REJECT)
        }
    }

    companion object {
        /** The room that system bars, cut-outs and the keyboard take at each side, in pixels: left, top, right, bottom. */
        @Suppress("DEPRECATION") // the only way below Android 11
        fun taken(insets: WindowInsets): IntArray = if (Build.VERSION.SDK_INT >= Build.VERSION_CODES.R) {
            val kinds = WindowInsets.Type.systemBars() or WindowInsets.Type.displayCutout() or WindowInsets.Type.ime()
            insets.getInsets(kinds).let { intArrayOf(it.left, it.top, it.right, it.bottom) }
        } else {
            intArrayOf(
                insets.systemWindowInsetLeft, insets.systemWindowInsetTop,
                insets.systemWindowInsetRight, insets.systemWindowInsetBottom,
            )
        }
    }
}
