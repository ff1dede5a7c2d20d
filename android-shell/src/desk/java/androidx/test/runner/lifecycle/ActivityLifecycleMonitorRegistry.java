package androidx.test.runner.lifecycle;

/** Stands in for the type of this name that Robolectric refers to; only what it touches. */
public final class ActivityLifecycleMonitorRegistry {
    private static ActivityLifecycleMonitor instance;

    private ActivityLifecycleMonitorRegistry() {}

    public static void registerInstance(ActivityLifecycleMonitor monitor) {
        instance = monitor;
    }

    public static ActivityLifecycleMonitor getInstance() {
        return instance;
    }
}
