package androidx.test.runner.lifecycle;

/** Stands in for the type of this name that Robolectric refers to; only what it touches. */
public interface ApplicationLifecycleMonitor {}
