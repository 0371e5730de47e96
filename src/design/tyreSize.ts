import { parseLength } from '../units/parseLength.ts';

/** Dimensions from a tyre's designation: nominal, new, on its measuring rim. */
export interface TyreSize {
  kind: 'metric' | 'flotation';
  overallDiameterMm: number;
  sectionWidthMm: number;
  /** From the rim's nominal diameter to the tread, on the radius. */
  sectionHeightMm: number;
  /** Diameter code of the rim, inches. */
  rimCode: number;
}

const CONSTRUCTION = String.raw`\s*(?:Z?RF?|B|D|-)\s*`;
const RIM = String.raw`(\d{1,2}(?:\.5)?)`;
/** May follow the size and does not affect the shape: LT, C, load range, load index and speed symbol, XL and the like. */
const REST = String.raw`\s*(?:LT|C)?(?:\s*\/?\s*[B-N])?(?:\s+\(?\d{2,3}(?:\/\d{2,3})?\s?[A-Z]\d?\)?)?(?:\s+(?:XL|SL|RFT?|M\+S))*`;
const METRIC = new RegExp(
  String.raw`^(?:P|LT|T|ST)?\s*(\d{3})\s*\/\s*(\d{2,3})${CONSTRUCTION}${RIM}${REST}$`,
  'i',
);
const FLOTATION = new RegExp(
  String.raw`^(?:LT)?\s*(\d{2}(?:\.\d{1,2})?)\s*[x×]\s*(\d{1,2}(?:\.\d{1,2})?)${CONSTRUCTION}${RIM}${REST}$`,
  'i',
);
/** "7.00R16LT": a nominal width in inches, which gives no dimension. */
const NUMERIC = new RegExp(String.raw`^(?:LT)?\s*(\d{1,2}\.\d{2})${CONSTRUCTION}${RIM}${REST}$`, 'i');
const FORMS = 'write it as "205/55R16", "LT265/70R17", "37x12.5R17LT" or "7.00R16"';

/**
 * Reads a designation: metric (section width mm / aspect ratio % R rim inches: overall diameter = 25.4 d + 2 W A/100)
 * or flotation (overall diameter x section width, inches). Exact, unlike the tables of ETRTO and UN R30, which round
 * the rim's diameter and the section height to 1 mm first and so differ by up to 1.2 mm. Real tyres are often smaller
 * than their flotation size. A numeric size ("7.00R16") gives no dimension: see `tyreDimensions`. Throws an Error with
 * one sentence if the text gives no dimensions.
 */
export function readTyreSize(designation: string): TyreSize {
  const text = designation.trim();
  const metric = METRIC.exec(text);
  if (metric !== null) {
    const [width, aspect, rimCode] = metric.slice(1, 4).map(Number);
    requireRange('section width', width, 90, 500);
    requireRange('aspect ratio', aspect, 20, 105);
    requireRange('rim diameter', rimCode, 8, 30);
    return {
      kind: 'metric',
      // A single division gives the double nearest to the true value.
      overallDiameterMm: (2540 * rimCode + 2 * width * aspect) / 100,
      sectionWidthMm: width,
      sectionHeightMm: (width * aspect) / 100,
      rimCode,
    };
  }
  if (numericRimCode(text) !== undefined)
    throw new Error(
      'gives neither overall diameter nor section width; give overallDiameter and sectionWidth as measured, mounted ' +
        'and inflated',
    );
  const flotation = FLOTATION.exec(text);
  if (flotation === null) throw new Error(`is not a tyre size that can be read; ${FORMS}`);
  const [diameter, width, rimCode] = flotation.slice(1, 4).map(Number);
  requireRange('rim diameter', rimCode, 8, 30);
  requireRange('overall diameter', diameter, rimCode + 2, 3 * rimCode + 20);
  requireRange('section width', width, 3, 25);
  const inches = (value: number) => parseLength(`${value} in`).mm;
  return {
    kind: 'flotation',
    overallDiameterMm: inches(diameter),
    sectionWidthMm: inches(width),
    sectionHeightMm: inches(diameter - rimCode) / 2,
    rimCode,
  };
}

/** Rim code of a numeric size; undefined for any other text. */
function numericRimCode(text: string): number | undefined {
  const found = NUMERIC.exec(text);
  if (found === null) return undefined;
  const [width, rimCode] = found.slice(1, 3).map(Number);
  requireRange('section width', width, 3, 25);
  requireRange('rim diameter', rimCode, 8, 30);
  return rimCode;
}

/** Dimensions that a tyre is drawn to, and its rim. */
export interface TyreDimensions {
  overallDiameterMm: number;
  sectionWidthMm: number;
  rimCode: number;
}

/** A tyre's dimensions, as measured, else from its designation. Throws as `readTyreSize` does if one is in neither. */
export function tyreDimensions(tyre: {
  designation: string;
  overallDiameter?: number | undefined;
  sectionWidth?: number | undefined;
}): TyreDimensions {
  const { designation, overallDiameter, sectionWidth } = tyre;
  if (overallDiameter !== undefined && sectionWidth !== undefined) {
    const rimCode = numericRimCode(designation.trim()) ?? readTyreSize(designation).rimCode;
    return { overallDiameterMm: overallDiameter, sectionWidthMm: sectionWidth, rimCode };
  }
  const size = readTyreSize(designation);
  return {
    overallDiameterMm: overallDiameter ?? size.overallDiameterMm,
    sectionWidthMm: sectionWidth ?? size.sectionWidthMm,
    rimCode: size.rimCode,
  };
}

function requireRange(what: string, value: number, least: number, most: number): void {
  if (value < least || value > most) {
    throw new Error(`has a ${what} of ${value}, which is outside ${least} to ${most}; ${FORMS}`);
  }
}
