package androidx.test.runner.lifecycle;

/** Stands in for the type of this name that Robolectric refers to; only what it touches. */
public final class ApplicationLifecycleMonitorRegistry {
    private static ApplicationLifecycleMonitor instance;

    private ApplicationLifecycleMonitorRegistry() {}

    public static void registerInstance(ApplicationLifecycleMonitor monitor) {
        instance = monitor;
    }

    public static ApplicationLifecycleMonitor getInstance() {
        return instance;
    }
}
