package org.liftgate.shell
import android.app.Activity
import android.os.Bundle
import android.widget.TextView
import org.liftgate.R
class PilotActivity : Activity() {
    override fun onCreate(b: Bundle?) { super.onCreate(b); setContentView(TextView(this).apply { text = getString(R.string.app_name); textSize = 40f }) }
}
