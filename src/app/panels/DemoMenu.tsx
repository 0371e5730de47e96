import { useDemos } from '../demos.ts';
import { useSession } from '../session.ts';

/** The example corners that come with Daylight. */
export function DemoMenu() {
  const session = useSession();
  const demos = useDemos();
  if (demos.length === 0) return null;
  return (
    <select
      aria-label="Open an example corner"
      value=""
      onChange={(event) => {
        const demo = demos.find((one) => one.fileName === event.target.value);
        if (demo) void session.open(demo.fileName, demo.text);
      }}
    >
      <option value="" disabled>
        Examples
      </option>
      {demos.map(({ fileName, name }) => (
        <option key={fileName} value={fileName}>
          {name}
        </option>
      ))}
    </select>
  );
}
