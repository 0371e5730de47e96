/** Paper sizes, the shorter side first, mm: ISO 216, and ANSI/ASME Y14.1 size A. */
export const PAPER_MM = { A4: [210, 297], Letter: [215.9, 279.4] } as const;
export type Paper = keyof typeof PAPER_MM;
export const PAPERS = Object.keys(PAPER_MM) as Paper[];

/** PDF points in a millimetre. */
export const POINTS_PER_MM = 72 / 25.4;
