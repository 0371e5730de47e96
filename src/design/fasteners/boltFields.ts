/** What a set of bolts joins. The parts that it joins hold the places of the holes. */
export const BOLT_JOINS = ['hubMount', 'caliperMount', 'rotor', 'wheel'] as const;

export const BOLT_TOOLS = ['socket', 'boxWrench', 'openWrench'] as const;

/** Dimensions that apply with a socket only, or with a wrench only. */
export const SOCKET_FIELDS = ['driveDiameter', 'driveLength'] as const;
export const WRENCH_FIELDS = ['toolThickness', 'handleWidth', 'handleDeg', 'swingDeg'] as const;

/** Dimensions that apply to bolts (not to nuts on studs), to nuts, and to washers. */
export const BOLT_FIELDS = [
  'length',
  'headAcross',
  'headHeight',
  'counterboreDiameter',
  'counterboreDepth',
] as const;
export const NUT_FIELDS = ['nutAcross', 'nutHeight'] as const;
export const WASHER_FIELDS = ['washerDiameter', 'washerThickness'] as const;
