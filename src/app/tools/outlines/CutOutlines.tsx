import { useEffect, useState } from 'react';
import type { Rigid } from '../../../math/rigid.ts';
import type { Vec3 } from '../../../math/vec.ts';
import { linesPath, loopsPath, ontoScreen } from '../../../report/drawings/ontoScreen.ts';
import type { OpenCorner } from '../../state/engine.ts';
import { LOOKS } from '../../state/looks.ts';
import { useView } from '../../state/viewStore.ts';
import type { PartCut } from '../../workers/section/cut.ts';
import { followSection } from '../section/followSection.ts';

/** The current section as filled outlines, drawn where it lies in the view. */
export function CutOutlines({ corner, eye }: { corner: OpenCorner; eye: Vec3 }) {
  const [cut, setCut] = useState<{ parts: readonly PartCut[]; plane: Rigid }>();
  const hidden = useView((view) => view.hidden);
  const pair = useView((view) => view.pair);
  useEffect(
    () =>
      followSection(corner, {
        onPlane: (plane) => {
          if (plane === undefined) setCut(undefined);
        },
        onCuts: (parts, plane) => setCut({ parts, plane }),
        onFailure: () => setCut(undefined),
      }),
    [corner],
  );
  if (cut === undefined) return null;
  const projection = ontoScreen(cut.plane, eye, corner.design.corner.side);
  const chosen = pair === undefined ? undefined : corner.pairs[pair];
  return corner.solids.map(({ id, kind }, i) => {
    if (hidden.has(id) || cut.parts[i].outline.length === 0) return null;
    const back = chosen !== undefined && chosen.a !== i && chosen.b !== i;
    return (
      <g key={id} className="cut-outline" data-look={back ? 'ghost' : 'solid'}>
        <path
          className="cut-face"
          style={{ fill: LOOKS[kind].tone }}
          d={loopsPath(projection, cut.parts[i].outline)}
        />
        <path className="cut-swept" d={linesPath(projection, cut.parts[i].swept)} />
      </g>
    );
  });
}
