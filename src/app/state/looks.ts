import type { InputRecord } from '../../design/design.ts';
import { partKinds } from '../../parts/kindOf.ts';
import type { SolidLook } from '../../parts/workbenchKind.ts';
import { WORKBENCH_KINDS } from '../../parts/workbenchKinds.ts';
import type { LengthUnit } from '../../report/figures.ts';
import type { Solid, SolidKind } from '../../solids/solid.ts';
import { inputText } from '../kit/inputText.ts';

/**
 * How each kind of solid is shown. The tones are earth tones of one OKLab lightness (0.64) and low chroma, so that every mark
 * stands out from all of them. Hues differ between kinds, so that neighbours are distinct in a section. Only the tyre is
 * darker.
 */
export const LOOKS = Object.assign(
  {},
  ...partKinds().map((kind) => WORKBENCH_KINDS[kind].solids),
) as Readonly<Record<SolidKind, SolidLook>>;

/** Whether a solid may be drawn as glass, so that the parts inside it are visible. */
export const isGlass = (kind: SolidKind): boolean => LOOKS[kind].glass !== undefined;

/** Key dimension of a solid: "Ø 310 mm", "6 in back". Empty if it has none, or if its label contains the dimension. */
export function keyDimension(
  inputs: readonly InputRecord[],
  { partIndex, kind, label }: Pick<Solid, 'partIndex' | 'kind' | 'label'>,
  unit: LengthUnit,
  fileUnit: LengthUnit | undefined,
): string {
  for (const [field, before, after] of LOOKS[kind].key) {
    const input = inputs.find(({ path }) => path === `parts[${partIndex}].${field}`);
    if (input === undefined) continue;
    // The sheet of the part shows the tolerance.
    const typed = typeof input.typed === 'string' ? input.typed.replace(/\s*±.*/, '') : input.typed;
    const text = inputText({ ...input, typed }, unit, fileUnit);
    return label.includes(text) ? '' : `${before}${text}${after}`;
  }
  return '';
}
