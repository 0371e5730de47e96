import type { Design } from '../design/design.ts';
import type { Mounting } from '../studies/clocking/apply.ts';
import { MOUNTING_CHOICES, type MountingChoice, mountingsFor } from '../studies/clocking/mountingChoice.ts';
import type { Unsplit } from '../studies/clocking/unsplit.ts';
import type { Wants } from '../studies/clocking/wants.ts';
import { EXIT, Failure } from './exit.ts';
import { lengthMm, numberOf, rangeOf, required, type Typed, wholeNumber } from './options.ts';

/** The requirements for the clockings, from the command line. */
export function wantsOf(typed: Typed): Wants {
  const place = typed.values.get('caliper');
  if (place !== undefined && place !== 'ahead' && place !== 'behind')
    throw new Failure(EXIT.usage, `--caliper: "${place}" is not allowed. Give ahead or behind.`);
  const arc = (name: 'caliper-range' | 'hub-range') => {
    const range = rangeOf(typed, name, -360, 360);
    return range && { fromDeg: range.from, toDeg: range.to };
  };
  return {
    bleedWithinDeg: numberOf(typed, 'bleed', 0.1, 180),
    caliperPlace: place,
    caliperRange: arc('caliper-range'),
    hubRange: arc('hub-range'),
    unsplit: unsplitTyped(typed.values.get('unsplit')),
    leastMarginMm: lengthMm(typed, 'margin', 0, 20, 0),
  };
}

function unsplitTyped(text: string | undefined): Unsplit[] | undefined {
  return text?.split(',').map((item) => {
    const [, mount, plate] = /^\s*(hub|caliper):\s*(\S+)\s*$/.exec(item) ?? [];
    if (mount === undefined)
      throw new Failure(
        EXIT.usage,
        `--unsplit: "${item}" is not allowed. Give caliper:PLATE or hub:PLATE, several with commas between.`,
      );
    return { mount: mount as Unsplit['mount'], plate };
  });
}

/** The candidate to write, and its file. */
export interface Applied {
  candidate: number;
  save: string;
}

/** Number of the candidate to write, 1 to `most`; undefined without --apply. */
export function appliedOf(typed: Typed, most: number): Applied | undefined {
  const path = typed.values.get('save');
  if (!typed.values.has('apply')) {
    if (path === undefined) return undefined;
    throw new Failure(EXIT.usage, '--save needs the number of the candidate to write: --apply N');
  }
  return { candidate: wholeNumber(typed, 'apply', 1, most, 1), save: required('--save FILE', path) };
}

/** The mountings to try. Throws a Failure if the corner has no caliper, or cannot be mounted so. */
export function mountingsTyped(file: string, design: Design, { values }: Typed): Mounting[] {
  if (!design.corner.parts.some(({ kind }) => kind === 'caliper'))
    throw new Failure(
      EXIT.badInput,
      `${file}: has no part of kind "caliper". Add one to study its clocking.`,
    );
  const choice = (values.get('mounting') ?? 'drawn') as MountingChoice;
  if (!MOUNTING_CHOICES.includes(choice))
    throw new Failure(
      EXIT.usage,
      `--mounting: "${choice}" is not allowed. Give ${MOUNTING_CHOICES.slice(0, -1).join(', ')} or ${MOUNTING_CHOICES.at(-1)}.`,
    );
  try {
    return mountingsFor(design, choice);
  } catch (error) {
    throw error instanceof RangeError
      ? new Failure(EXIT.usage, `--mounting ${choice}: ${error.message}`)
      : error;
  }
}
