import { useId, useState } from 'react';
import type { Design } from '../../../design/design.ts';
import { uprightPlates } from '../../../solids/uprightPlates.ts';
import type { Wants } from '../../../studies/clocking/wants.ts';
import { ValueInput } from '../../kit/ValueInput.tsx';
import { useView } from '../../state/viewStore.ts';
import { useFit } from './fitStore.ts';
import { PlateWants } from './PlateWants.tsx';
import { RangeWant } from './RangeWant.tsx';

interface WantRowsProps {
  design: Design;
  /** Only those that apply to the corner. */
  wants: Wants;
}

/** Requirements for the clockings. */
export function WantRows({ design, wants }: WantRowsProps) {
  const unit = useView((view) => view.unit);
  const place = useId();
  // The state when the sheet opens; afterwards the user opens and closes it.
  const [isOpen] = useState(
    () => wants.caliperRange !== undefined || wants.hubRange !== undefined || wants.unsplit !== undefined,
  );
  const want = (change: Wants) =>
    useFit.setState({
      wants: Object.fromEntries(
        Object.entries({ ...wants, ...change }).filter(([, value]) => value !== undefined),
      ),
    });
  return (
    <div className="fit-wants">
      {hasBleedScrew(design) && (
        <ValueInput
          name="Bleed screw within"
          spoken="Largest angle of the bleed screw from straight up, degrees"
          kind="angle"
          value={wants.bleedWithinDeg ?? 180}
          unit={unit}
          validate={(deg) =>
            deg > 0 && deg <= 180 ? undefined : 'must be more than 0° and at most 180° from straight up'
          }
          onChange={(deg) => want({ bleedWithinDeg: deg === 180 ? undefined : deg })}
        />
      )}
      <ValueInput
        name="Least margin"
        kind="length"
        value={wants.leastMarginMm ?? 0}
        unit={unit}
        validate={(mm) => (mm >= 0 ? undefined : 'must be 0 or more')}
        onChange={(mm) => want({ leastMarginMm: mm === 0 ? undefined : mm })}
      />
      <span>
        <label htmlFor={place}>Caliper</label>
        <select
          id={place}
          value={wants.caliperPlace ?? ''}
          onChange={(event) =>
            want({ caliperPlace: (event.target.value || undefined) as Wants['caliperPlace'] })
          }
        >
          <option value="">anywhere</option>
          <option value="ahead">ahead</option>
          <option value="behind">behind</option>
        </select>
      </span>
      <details className="fit-more" open={isOpen}>
        <summary>Ranges and plates</summary>
        <RangeWant
          of="Caliper"
          range={wants.caliperRange}
          onChange={(caliperRange) => want({ caliperRange })}
        />
        <RangeWant of="Hub" range={wants.hubRange} onChange={(hubRange) => want({ hubRange })} />
        <PlateWants
          corner={design.corner}
          unsplit={wants.unsplit ?? []}
          onChange={(unsplit) => want({ unsplit: unsplit.length === 0 ? undefined : unsplit })}
        />
      </details>
    </div>
  );
}

const hasBleedScrew = ({ corner }: Design): boolean =>
  corner.parts.some((part) => part.kind === 'caliper' && part.bleedScrew !== undefined);

/** The requirements that apply to a corner: not those for a bleed screw, plates or a hub that it does not have. */
export function wantsOf(design: Design, wants: Wants): Wants {
  const { bleedWithinDeg, unsplit, ...others } = wants;
  const plates = unsplit === undefined ? [] : uprightPlates(design.corner).map(({ id }) => id);
  const hasHub = design.corner.parts.some(({ kind }) => kind === 'hub');
  const kept = unsplit?.filter(({ mount, plate }) => plates.includes(plate) && (mount !== 'hub' || hasHub));
  return {
    ...others,
    ...(bleedWithinDeg !== undefined && hasBleedScrew(design) ? { bleedWithinDeg } : {}),
    ...(kept !== undefined && kept.length > 0 ? { unsplit: kept } : {}),
  };
}
