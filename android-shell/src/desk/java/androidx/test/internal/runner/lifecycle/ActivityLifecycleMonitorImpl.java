package androidx.test.internal.runner.lifecycle;

import android.app.Activity;
import androidx.test.runner.lifecycle.ActivityLifecycleCallback;
import androidx.test.runner.lifecycle.ActivityLifecycleMonitor;
import androidx.test.runner.lifecycle.Stage;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.WeakHashMap;

/** Stands in for the type of this name that Robolectric refers to; only what it touches. */
public final class ActivityLifecycleMonitorImpl implements ActivityLifecycleMonitor {
    private final Map<Activity, Stage> stages = new WeakHashMap<>();
    private final List<ActivityLifecycleCallback> callbacks = new ArrayList<>();

    @Override
    public void addLifecycleCallback(ActivityLifecycleCallback callback) {
        callbacks.add(callback);
    }

    @Override
    public void removeLifecycleCallback(ActivityLifecycleCallback callback) {
        callbacks.remove(callback);
    }

    @Override
    public Stage getLifecycleStageOf(Activity activity) {
        return stages.get(activity);
    }

    @Override
    public Collection<Activity> getActivitiesInStage(Stage stage) {
        List<Activity> found = new ArrayList<>();
        stages.forEach((activity, at) -> { if (at == stage) found.add(activity); });
        return found;
    }

    public void signalLifecycleChange(Stage stage, Activity activity) {
        stages.put(activity, stage);
        for (ActivityLifecycleCallback callback : new ArrayList<>(callbacks)) {
            callback.onActivityLifecycleChanged(activity, stage);
        }
    }
}
