import { useEffect, useState } from 'react';
import type { BoltsLines } from '../../../report/bolts/boltsLines.ts';
import type { TextLine } from '../../../report/textLine.ts';
import type { OpenCorner } from '../../state/engine.ts';
import { useView } from '../../state/viewStore.ts';
import { checkBolts } from '../../workers/fit/checkBolts.ts';

type Reply = { kind: 'done'; lines: BoltsLines } | { kind: 'failed'; why: string };

interface CheckRequest {
  designHash: string;
  unit: 'mm' | 'in';
}

/**
 * Checks on request whether every bolt of the corner can be put in, turned and taken out, in which order, and which holes
 * are near an edge. The result is dropped when the corner changes.
 */
export function BoltsCheck({ corner }: { corner: OpenCorner }) {
  const unit = useView((view) => view.unit);
  const { hash } = corner.design;
  const [request, setRequest] = useState<CheckRequest>();
  const [reply, setReply] = useState<Reply>();
  const isRequested = request?.designHash === hash && request.unit === unit;

  // biome-ignore lint/correctness/useExhaustiveDependencies: `hash` identifies the corner, whose object is new after each edit
  useEffect(() => {
    setReply(undefined);
    if (!isRequested) return;
    const { result, cancel } = checkBolts(corner.design.corner, unit);
    result.then(
      (lines) => setReply({ kind: 'done', lines }),
      ({ message }: Error) => setReply({ kind: 'failed', why: message }),
    );
    return cancel;
  }, [isRequested, hash, unit]);

  const hasBolts = corner.design.corner.parts.some(({ kind }) => kind === 'bolts');
  if (!hasBolts) return <p className="bench-kind">Add bolts to check their access.</p>;
  if (!isRequested)
    return (
      <button type="button" onClick={() => setRequest({ designHash: hash, unit })}>
        Check bolt access
      </button>
    );
  if (reply === undefined)
    return (
      <p className="fit-waiting" role="status">
        Checking bolt access
      </p>
    );
  if (reply.kind === 'failed')
    return (
      <p className="bench-problem" role="alert">
        {reply.why}
      </p>
    );
  return <BoltsResult lines={reply.lines} />;
}

function BoltsResult({ lines: { reach, steps, sets, holes } }: { lines: BoltsLines }) {
  return (
    <div className="bolts-result" data-testid="bolts-result">
      <Lines lines={reach} />
      <details>
        <summary>Assembly steps</summary>
        <Lines lines={steps} />
      </details>
      <details>
        <summary>Bolts and tools</summary>
        <Lines lines={sets} />
      </details>
      <Lines lines={holes} />
      <p className="bench-kind">Geometry only: try every bolt and its tool by hand before metal is cut.</p>
    </div>
  );
}

function Lines({ lines }: { lines: readonly TextLine[] }) {
  return lines.map(({ level, text }, i) => (
    // biome-ignore lint/suspicious/noArrayIndexKey: lines have no id, and are replaced all at once
    <p key={i} data-level={level}>
      {text}
    </p>
  ));
}
