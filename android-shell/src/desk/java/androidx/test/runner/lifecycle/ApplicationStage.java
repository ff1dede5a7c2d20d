package androidx.test.runner.lifecycle;

/** Stands in for the type of this name that Robolectric refers to; only what it touches. */
public enum ApplicationStage {
    PRE_ON_CREATE,
    CREATED
}
