/** The measure of a pin-to-pin test: a beep, none, or the ohms between the two. */
export const CONTINUITY = "continuity";
/** The drop of the diode across a coil, and with the leads the other way; both may stand in one cell. */
export const COIL_DIODE = "diode";
/** The measure of the same diode with the leads the other way round. */
export const COIL_DIODE_REVERSED = "reversed";
/** The measure of what is left of the mains on a rail. */
export const RIPPLE = "ripple";
