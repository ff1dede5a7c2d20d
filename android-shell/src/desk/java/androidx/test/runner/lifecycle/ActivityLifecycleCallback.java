package androidx.test.runner.lifecycle;

import android.app.Activity;

/** Stands in for the type of this name that Robolectric refers to; only what it touches. */
public interface ActivityLifecycleCallback {
    void onActivityLifecycleChanged(Activity activity, Stage stage);
}
