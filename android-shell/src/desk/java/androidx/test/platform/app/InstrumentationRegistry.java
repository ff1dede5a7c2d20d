package androidx.test.platform.app;

import android.app.Instrumentation;
import android.os.Bundle;

/** Stands in for the type of this name that Robolectric refers to; only what it touches. */
public final class InstrumentationRegistry {
    private static Instrumentation instrumentation;
    private static Bundle arguments;

    private InstrumentationRegistry() {}

    public static void registerInstance(Instrumentation instance, Bundle args) {
        instrumentation = instance;
        arguments = args;
    }

    public static Instrumentation getInstrumentation() {
        return instrumentation;
    }

    public static Bundle getArguments() {
        return arguments;
    }
}
