const INCH = 25.4;

/** Specified rim diameter at the heel of the bead seat, mm, by a whole diameter code. ISO 4000-2 Table 4, from memory. */
export function rimDiameterMm(diameterCode: number): number {
  return diameterCode <= 16 ? INCH * diameterCode - 0.8 : INCH * diameterCode + 4.8;
}
