package androidx.test.runner.intent;

/** Stands in for the type of this name that Robolectric refers to; only what it touches. */
public final class IntentMonitorRegistry {
    private static IntentMonitor instance;

    private IntentMonitorRegistry() {}

    public static void registerInstance(IntentMonitor monitor) {
        instance = monitor;
    }

    public static IntentMonitor getInstance() {
        return instance;
    }
}
