package org.liftgate.shell.look

import org.liftgate.R
import uniffi.liftgate.Icon

/** The drawing for an icon that the core names; 0 for none. */
val Icon.drawable: Int
    get() = when (this) {
        Icon.NONE -> 0
        Icon.BACK -> R.drawable.ic_back
        Icon.NEXT -> R.drawable.ic_next
        Icon.ADD -> R.drawable.ic_add
        Icon.REMOVE -> R.drawable.ic_remove
        Icon.TICK -> R.drawable.ic_tick
        Icon.CROSS -> R.drawable.ic_cross
        Icon.UNDO -> R.drawable.ic_undo
        Icon.PLAY -> R.drawable.ic_play
        Icon.STOP -> R.drawable.ic_stop
        Icon.HAND -> R.drawable.ic_hand
        Icon.FLAG -> R.drawable.ic_flag
        Icon.THERMOMETER -> R.drawable.ic_thermometer
        Icon.PACK -> R.drawable.ic_pack
        Icon.SCALE -> R.drawable.ic_scale
        Icon.ROTOR -> R.drawable.ic_rotor
        Icon.WARNING -> R.drawable.ic_warning
        Icon.LIST -> R.drawable.ic_list
        Icon.PENCIL -> R.drawable.ic_pencil
        Icon.SHAKE -> R.drawable.ic_shake
        Icon.SOUND -> R.drawable.ic_sound
        Icon.TAIL -> R.drawable.ic_tail
        Icon.DRIFT -> R.drawable.ic_drift
        Icon.POWER -> R.drawable.ic_power
        Icon.SMELL -> R.drawable.ic_smell
        Icon.OTHER -> R.drawable.ic_other
        Icon.BOOK -> R.drawable.ic_book
        Icon.LOCK -> R.drawable.ic_lock
    }
