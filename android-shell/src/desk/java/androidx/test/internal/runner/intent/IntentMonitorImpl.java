package androidx.test.internal.runner.intent;

import android.content.Intent;
import androidx.test.runner.intent.IntentMonitor;

/** Stands in for the type of this name that Robolectric refers to; only what it touches. */
public final class IntentMonitorImpl implements IntentMonitor {
    public void signalIntent(Intent intent) {}
}
