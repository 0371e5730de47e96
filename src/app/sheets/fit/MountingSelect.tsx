import { useId } from 'react';
import { MOUNTING_WORDS } from '../../../report/clocking/clockingWords.ts';
import type { MountingChoice } from '../../../studies/clocking/mountingChoice.ts';
import { useFit } from './fitStore.ts';

interface MountingSelectProps {
  /** The mountings that the corner has. */
  offered: readonly Exclude<MountingChoice, 'all'>[];
  choice: MountingChoice;
}

/** Selects the mountings of caliper and hub bolts to study; empty if there is only one. */
export function MountingSelect({ offered, choice }: MountingSelectProps) {
  const id = useId();
  if (offered.length < 2) return null;
  return (
    <div className="fit-row">
      <label htmlFor={id}>Mounting</label>
      <select
        id={id}
        value={choice}
        onChange={(event) =>
          useFit.setState({ choice: event.target.value as MountingChoice, next: undefined })
        }
      >
        {offered.map((one) => (
          <option key={one} value={one}>
            {MOUNTING_WORDS[one]}
          </option>
        ))}
        <option value="all">all mountings</option>
      </select>
    </div>
  );
}
