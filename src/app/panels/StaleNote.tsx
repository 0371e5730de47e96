import { standingOf, useDocument } from '../stores/documentStore.ts';

/** Says, over figures of an earlier state of the file, which state they are of; nothing while they are current. */
export function StaleNote() {
  const standing = useDocument(standingOf);
  const label = useDocument((state) => state.shown?.label);
  if (standing === 'current' || label === undefined) return null;
  const text = `Not current: as after “${label}”`;
  return (
    <p className="stale-note" title={text}>
      {text}
    </p>
  );
}
