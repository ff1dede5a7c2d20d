package androidx.test.runner.intent;

/** Stands in for the type of this name that Robolectric refers to; only what it touches. */
public interface IntentMonitor {}
