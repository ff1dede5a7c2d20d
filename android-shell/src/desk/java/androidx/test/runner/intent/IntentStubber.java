package androidx.test.runner.intent;

import android.app.Instrumentation;
import android.content.Intent;

/** Stands in for the type of this name that Robolectric refers to; only what it touches. */
public interface IntentStubber {
    Instrumentation.ActivityResult getActivityResultForIntent(Intent intent);
}
