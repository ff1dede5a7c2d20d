package org.liftgate.shell.look

import android.content.res.Configuration

/** Below this width there is no room for a page and what the thumb reaches beside each other. */
private const val BOTH_FROM_DP = 560

/**
 * Whether what the thumb reaches stands beside the page: in a window that lies, is lower than [belowDp] and wide enough for both. Half
 * of an upright phone, which another app shares, is wider than high too, and is not.
 */
fun Configuration.standsBeside(belowDp: Int): Boolean =
    orientation == Configuration.ORIENTATION_LANDSCAPE && screenHeightDp < belowDp && screenWidthDp >= BOTH_FROM_DP
