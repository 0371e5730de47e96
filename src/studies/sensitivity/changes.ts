import type { Design } from '../../design/design.ts';
import { type ParseResult, parseChanged } from '../../design/parse.ts';
import type { SolidMaker } from '../../solids/catalogue.ts';
import type { SweepSettings } from '../../sweep/result.ts';
import { SetupMemory } from '../../sweep/setUp.ts';
import { typedAmount } from '../vary/typedAmount.ts';
import { withAmount, withoutMeasuredTo } from '../vary/variedField.ts';
import type { StudiedInput } from './studiedInputs.ts';

/**
 * A corner and its changes by one value. What was read and built of each change is kept for studies of further pairs; of the
 * bodies, only those of the corner itself: all of them would take a gigabyte, the meshes of all changes take 40 MB.
 */
export class Changes {
  readonly design: Design;
  readonly settings: SweepSettings;
  /** Of the corner without a change. */
  readonly memory = new SetupMemory();
  private readonly kept = new Map<string, { read: ParseResult; maker: SolidMaker }>();

  constructor(design: Design, settings: SweepSettings) {
    this.design = design;
    this.settings = settings;
  }

  /** The design with a value changed by `by` mm or degrees, and a memory for its corner. */
  of({ field, input }: StudiedInput, by: number): { read: ParseResult; memory: SetupMemory } {
    const { design, memory: base, kept } = this;
    const key = `${input.path} ${by}`;
    const known = kept.get(key);
    const memory = new SetupMemory(base, known?.maker);
    const read = known?.read ?? parseChanged(design, changedFile(design, { field, input }, by));
    kept.set(key, { read, maker: memory.maker });
    return { read, memory };
  }
}

const changedFile = (design: Design, { field, input }: StudiedInput, by: number): unknown =>
  withAmount(withoutMeasuredTo(design.source), field, typedAmount(design, field, input) + by);
