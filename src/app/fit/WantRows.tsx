import { useId, useState } from 'react';
import type { Design } from '../../design/design.ts';
import { uprightPlates } from '../../solids/uprightPlates.ts';
import type { Wants } from '../../studies/clocking/wants.ts';
import { ValueInput } from '../section/ValueInput.tsx';
import { useView } from '../stores/viewStore.ts';
import { useFit } from './fitStore.ts';
import { PlateWants } from './PlateWants.tsx';
import { RangeWant } from './RangeWant.tsx';

interface WantRowsProps {
  design: Design;
  /** Of those that the corner can have. */
  wants: Wants;
}

/** What is wanted of the clockings. */
export function WantRows({ design, wants }: WantRowsProps) {
  const unit = useView((view) => view.unit);
  const place = useId();
  // As it stands when the sheet opens: from then on it is opened and closed by hand.
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
          name="Bleed screw, up to"
          spoken="Bleed screw from straight up at most, degrees"
          kind="angle"
          value={wants.bleedWithinDeg ?? 180}
          unit={unit}
          complaint={(deg) =>
            deg > 0 && deg <= 180
              ? undefined
              : 'more than 0, up to 180 degrees from straight up, can be asked'
          }
          onChange={(deg) => want({ bleedWithinDeg: deg === 180 ? undefined : deg })}
        />
      )}
      <ValueInput
        name="Least margin"
        kind="length"
        value={wants.leastMarginMm ?? 0}
        unit={unit}
        complaint={(mm) => (mm >= 0 ? undefined : 'a least margin is 0 or more')}
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

/** Those of some wants that a corner can have: others stay from a corner with a bleed screw, or with plates of other names. */
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
