import { useState } from 'react';
import { useDemos } from '../demos.ts';
import { mayLeave } from '../keep/leaving.ts';
import { type Recent, recentCorners } from '../keep/recent.ts';
import { useSession } from '../session.ts';

/** The example corners that come with Daylight, and those that were open lately. */
export function DemoMenu() {
  const session = useSession();
  const demos = useDemos();
  const [recent, setRecent] = useState<readonly Recent[]>([]);
  const read = () => void recentCorners().then(setRecent, () => {});
  const isDemo = (fileName: string) => demos.some((demo) => demo.fileName === fileName);
  const others = recent.filter(({ fileName }) => !isDemo(fileName));
  return (
    <select
      aria-label="Open an example corner"
      value=""
      onFocus={read}
      onPointerEnter={read}
      onChange={(event) => {
        const chosen = [...demos, ...others].find((one) => one.fileName === event.target.value);
        if (chosen && mayLeave()) void session.open(chosen.fileName, chosen.text);
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
        <optgroup label="Opened lately">
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
