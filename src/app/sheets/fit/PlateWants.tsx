import { useMemo } from 'react';
import type { Corner } from '../../../design/schema.ts';
import { uprightPlates } from '../../../solids/uprightPlates.ts';
import type { Unsplit } from '../../../studies/clocking/unsplit.ts';

interface PlateWantsProps {
  corner: Corner;
  unsplit: readonly Unsplit[];
  onChange(unsplit: readonly Unsplit[]): void;
}

/** Requires that all bolts of a mount are on one side of a plate of the upright: a checkbox for each plate and mount. */
export function PlateWants({ corner, unsplit, onChange }: PlateWantsProps) {
  const plates = useMemo(() => uprightPlates(corner), [corner]);
  if (plates.length === 0) return null;
  const mounts = (['caliper', 'hub'] as const).filter((mount) =>
    corner.parts.some(({ kind }) => kind === mount),
  );
  const isWanted = (mount: Unsplit['mount'], plate: string) =>
    unsplit.some((one) => one.mount === mount && one.plate === plate);
  const toggle = (mount: Unsplit['mount'], plate: string) =>
    onChange(
      isWanted(mount, plate)
        ? unsplit.filter((one) => one.mount !== mount || one.plate !== plate)
        : [...unsplit, { mount, plate }],
    );
  return (
    <table className="fit-plates">
      <thead>
        <tr>
          <th scope="col">All on one side of</th>
          {mounts.map((mount) => (
            <th key={mount} scope="col">
              {mount} bolts
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {plates.map(({ id, name }) => (
          <tr key={id}>
            <th scope="row">{name}</th>
            {mounts.map((mount) => (
              <td key={mount}>
                <input
                  type="checkbox"
                  aria-label={`All ${mount} bolts on one side of ${name}`}
                  checked={isWanted(mount, id)}
                  onChange={() => toggle(mount, id)}
                />
              </td>
            ))}
          </tr>
        ))}
      </tbody>
    </table>
  );
}
