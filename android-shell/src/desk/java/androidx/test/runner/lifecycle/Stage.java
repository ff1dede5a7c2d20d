package androidx.test.runner.lifecycle;

/** Stands in for the type of this name that Robolectric refers to; only what it touches. */
public enum Stage {
    PRE_ON_CREATE,
    CREATED,
    STARTED,
    RESUMED,
    PAUSED,
    STOPPED,
    RESTARTED,
    DESTROYED
}
