import { statusOf, useDocument } from '../state/documentStore.ts';

/** Note over figures of an earlier state of the file: names that state. Renders nothing while the figures are current. */
export function StaleNote() {
  const status = useDocument(statusOf);
  const label = useDocument((state) => state.shown?.label);
  if (status === 'current' || label === undefined) return null;
  const text = `Not current: state after “${label}”`;
  return (
    <p className="stale-note" title={text}>
      {text}
    </p>
  );
}
