import { useId, useMemo, useState } from 'react';
import { figuresIn } from '../../../report/figures.ts';
import type { OpenCorner } from '../../state/engine.ts';
import { useView } from '../../state/viewStore.ts';
import { jointsOf, type Pick } from '../../workers/tape/pick.ts';
import { kindText, whereText } from './pickWords.ts';
import { addPick, useTape } from './tapeStore.ts';

/** Sort order: joints and holes, faces, round sides, edges; each from large to small. */
const ORDER: Record<Pick['what']['kind'], number> = { place: 0, ring: 1, flat: 2, cylinder: 3, edge: 4 };

function sizeOf(what: Pick['what']): number {
  switch (what.kind) {
    case 'place':
      return 0;
    case 'ring':
      return what.radiusMm;
    case 'flat':
    case 'cylinder':
      return what.areaMm2;
    case 'edge':
      return Math.hypot(what.to[0] - what.from[0], what.to[1] - what.from[1], what.to[2] - what.from[2]);
  }
}

/** The features of one part. Arrow keys move, Enter picks. */
export function FeatureList({ corner }: { corner: OpenCorner }) {
  const [solid, setSolid] = useState(0);
  const [active, setActive] = useState(0);
  const found = useTape(({ features }) => features.get(solid));
  const unit = useView((view) => view.unit);
  const id = useId();
  const rows = useMemo(() => {
    const whats = [...jointsOf(corner.design.corner.suspension, corner.solids[solid]), ...(found ?? [])];
    const figures = figuresIn(unit);
    return whats
      .sort((a, b) => ORDER[a.kind] - ORDER[b.kind] || sizeOf(b) - sizeOf(a))
      .map((what) => ({ what, name: kindText(what, unit), where: whereText(corner, what, figures) }));
  }, [corner, solid, found, unit]);
  const offer = (index: number) => {
    setActive(index);
    useTape.setState({ offered: { solid, what: rows[index].what } });
    document.getElementById(`${id}-${index}`)?.scrollIntoView({ block: 'nearest' });
  };
  const onKeyDown = (event: React.KeyboardEvent) => {
    const steps: Record<string, number> = {
      ArrowDown: active + 1,
      ArrowUp: active - 1,
      PageDown: active + 8,
      PageUp: active - 8,
      Home: 0,
      End: rows.length - 1,
    };
    if (rows.length === 0) return;
    if (event.key === 'Enter' || event.key === ' ') addPick({ solid, what: rows[active].what });
    else if (event.key in steps) offer(Math.max(0, Math.min(rows.length - 1, steps[event.key])));
    else return;
    event.preventDefault();
  };
  return (
    <details className="tape-list">
      <summary>Choose from list</summary>
      <label>
        <span>Part</span>
        <select
          value={solid}
          onChange={(event) => {
            setSolid(Number(event.target.value));
            setActive(0);
          }}
        >
          {corner.solids.map(({ id: name, label }, index) => (
            <option key={name} value={index}>
              {label}
            </option>
          ))}
        </select>
      </label>
      <div
        role="listbox"
        tabIndex={0}
        aria-label={`Features of ${corner.solids[solid].label}`}
        aria-activedescendant={rows.length > 0 ? `${id}-${active}` : undefined}
        onKeyDown={onKeyDown}
        onFocus={() => {
          if (rows.length > 0) offer(Math.min(active, rows.length - 1));
        }}
        onBlur={() => useTape.setState({ offered: undefined })}
      >
        {rows.map(({ what, name, where }, index) => (
          // biome-ignore lint/a11y/useKeyWithClickEvents: the list takes the keys
          // biome-ignore lint/a11y/useFocusableInteractive: the list has the focus and names the active option
          <div
            // biome-ignore lint/suspicious/noArrayIndexKey: rows have no other name, and change all at once
            key={index}
            id={`${id}-${index}`}
            role="option"
            aria-selected={index === active}
            // Before the list gets the focus: that scrolls the active row into view and would move this row.
            onPointerDown={() => offer(index)}
            onClick={() => {
              offer(index);
              addPick({ solid, what });
            }}
          >
            <span>{name}</span> <span className="soft">{where}</span>
          </div>
        ))}
      </div>
      {found === undefined && <p className="soft">Finding features …</p>}
    </details>
  );
}
