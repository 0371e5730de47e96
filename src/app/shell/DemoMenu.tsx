import { useState } from 'react';
import { useDemos } from '../state/demos.ts';
import { type Recent, recentCorners } from '../state/keep/recent.ts';
import { confirmDiscard } from '../state/keep/unsavedChanges.ts';
import { useSession } from '../state/session.ts';

/** Menu of the example corners and of recently opened ones. */
export function DemoMenu() {
  const session = useSession();
  const demos = useDemos();
  const [recent, setRecent] = useState<readonly Recent[]>([]);
  const read = () => void recentCorners().then(setRecent, () => {});
  const isDemo = (fileName: string) => demos.some((demo) => demo.fileName === fileName);
  const others = recent.filter(({ fileName }) => !isDemo(fileName));
  return (
    <select
      aria-label="Open an example or recent corner"
      value=""
      onFocus={read}
      onPointerEnter={read}
      onChange={(event) => {
        const all: readonly Pick<Recent, 'fileName' | 'text' | 'assets'>[] = [...demos, ...others];
        const chosen = all.find((one) => one.fileName === event.target.value);
        if (chosen === undefined || !confirmDiscard()) return;
        void session.open(chosen.fileName, chosen.text, { assets: chosen.assets });
      }}
    >
      <option value="" disabled>
        Corners
      </option>
      <optgroup label="Examples">
        {demos.map(({ fileName, name }) => (
          <option key={fileName} value={fileName}>
            {name}
          </option>
        ))}
      </optgroup>
      {others.length > 0 && (
        <optgroup label="Recent">
          {others.map(({ fileName, name }) => (
            <option key={fileName} value={fileName}>
              {name}, {fileName}
            </option>
          ))}
        </optgroup>
      )}
    </select>
  );
}
