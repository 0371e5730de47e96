import { useEffect, useState } from 'react';
import { onWorkerDeath } from '../../executors/workerDeath.ts';
import type { OpenCorner } from '../engine.ts';
import { useView } from '../stores/viewStore.ts';
import type { BoltsLines, BoltsReply, BoltsRequest } from './boltsWorker.ts';

interface Asked {
  designHash: string;
  unit: 'mm' | 'in';
}

/**
 * Whether every bolt of the corner as it stands can be put in, turned and taken out, in which order, and which holes are
 * near an edge. Told when it is asked for, and forgotten when the corner changes.
 */
export function BoltsCheck({ corner }: { corner: OpenCorner }) {
  const unit = useView((view) => view.unit);
  const { hash } = corner.design;
  const [asked, setAsked] = useState<Asked>();
  const [reply, setReply] = useState<BoltsReply>();
  const isAsked = asked?.designHash === hash && asked.unit === unit;

  // biome-ignore lint/correctness/useExhaustiveDependencies: `hash` identifies the corner, whose object is new after each edit
  useEffect(() => {
    setReply(undefined);
    if (!isAsked) return;
    const worker = new Worker(new URL('./boltsWorker.ts', import.meta.url), { type: 'module' });
    onWorkerDeath(worker, (why) => setReply({ kind: 'failed', why }));
    worker.addEventListener('message', ({ data }: MessageEvent<BoltsReply>) => setReply(data));
    worker.postMessage({ corner: corner.design.corner, unit } satisfies BoltsRequest);
    return () => worker.terminate();
  }, [isAsked, hash, unit]);

  const hasBolts = corner.design.corner.parts.some(({ kind }) => kind === 'bolts');
  if (!hasBolts)
    return <p className="bench-kind">Add parts of kind bolts to see whether they can be reached.</p>;
  if (!isAsked)
    return (
      <button type="button" onClick={() => setAsked({ designHash: hash, unit })}>
        Check every bolt's way out and tool
      </button>
    );
  if (reply === undefined)
    return (
      <p className="fit-waiting" role="status">
        Checking the bolts
      </p>
    );
  if (reply.kind === 'failed')
    return (
      <p className="bench-problem" role="alert">
        {reply.why}
      </p>
    );
  return <Told lines={reply.lines} />;
}

function Told({ lines: { reach, steps, sets, holes } }: { lines: BoltsLines }) {
  return (
    <div className="bolts-told" data-testid="bolts-told">
      <Lines lines={reach} />
      <details>
        <summary>Steps of assembly</summary>
        <Lines lines={steps} />
      </details>
      <details>
        <summary>Bolts and their tools</summary>
        <Lines lines={sets} />
      </details>
      <Lines lines={holes} />
      <p className="bench-kind">Geometry only: try every bolt and its tool by hand before metal is cut.</p>
    </div>
  );
}

const levelOf = (line: string): number => (line.length - line.trimStart().length) / 2;

function Lines({ lines }: { lines: readonly string[] }) {
  return lines.map((line, i) => (
    // biome-ignore lint/suspicious/noArrayIndexKey: lines have no id, and are replaced all at once
    <p key={i} data-level={levelOf(line)}>
      {line.trim()}
    </p>
  ));
}
