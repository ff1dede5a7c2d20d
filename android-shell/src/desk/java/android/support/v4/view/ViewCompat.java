package android.support.v4.view;

import android.view.View;

/** What the Accessibility Test Framework asks of the old support library; the framework's own views know it themselves. */
public final class ViewCompat {
    private ViewCompat() {}

    public static int getAccessibilityLiveRegion(View view) {
        return view.getAccessibilityLiveRegion();
    }

    public static float getAlpha(View view) {
        return view.getAlpha();
    }
}
