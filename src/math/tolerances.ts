/**
 * All tolerances of the kinematics, each with its reason. Coordinates of a corner are below a few thousand
 * millimetres, where neighbouring Float64 values differ by about 2e-13 mm.
 */

/**
 * A solved pose meets the requested travel within this: a thousand rounding steps, a ten-millionth of what a tape
 * shows.
 */
export const TRAVEL_TOLERANCE_MM = 1e-10;

/**
 * If the travel is off by more than this, it is not reached. Travel between the two limits occurs in very large
 * corners, whose coordinates round more coarsely. It also occurs just before an end of the range, where neighbouring
 * angles of the arm differ in travel by more than the tolerance.
 */
export const TRAVEL_LIMIT_MM = 5e-10;

/** A member shorter than this has no usable direction: it is less than the width of a scribed line. */
export const LEAST_LENGTH_MM = 1;

/**
 * Sine of the smallest allowed angle (about 0.06 degrees) at ride height between two members that must not be in
 * line. Below it, measured hardpoints do not determine the side on which the mechanism is assembled.
 */
export const LEAST_SINE = 1e-3;

/**
 * Longest stride of the arm along a branch. Every stride is checked afterwards, so this limit only saves work.
 */
export const LONGEST_STRIDE_RAD = 0.1;

/** Longest turn of the upright by the steering along a branch, rad; checked in the same way. */
export const LONGEST_STEERING_STRIDE_RAD = 0.2;

/**
 * A branch ends where strides below this fail. Near an end, joints move with the square root of the remaining stride.
 * So less than a millionth of a radian of their range is lost.
 */
export const LEAST_STRIDE_RAD = 1e-13;

/** Like LEAST_STRIDE_RAD, for the steering input, mm or degrees: input this close to its end counts as the end. */
export const LEAST_INPUT_STRIDE = 1e-7;

/**
 * The greatest reachable steer is computed to this much steering input, mm or degrees, on the reachable side: finer
 * than a steering stop is set.
 */
export const INPUT_LIMIT = 1e-4;

/** If a cosine is this near to 1 at the end of a branch, the branch ends because the two members are in line. */
export const IN_LINE_COSINE_GAP = 1e-5;
