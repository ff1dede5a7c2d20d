package android.support.v4.view;

import android.content.Context;
import android.view.ViewGroup;

/** The name alone: the Accessibility Test Framework asks whether a view is one. This app has none. */
public abstract class ViewPager extends ViewGroup {
    public ViewPager(Context context) {
        super(context);
    }
}
