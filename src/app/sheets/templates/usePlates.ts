import { useEffect, useRef, useState } from 'react';
import type { LengthUnit } from '../../../report/figures.ts';
import type { BendRule, FlatPlate } from '../../../solids/flatPlates/flatPlate.ts';
import type { OpenCorner } from '../../state/engine.ts';
import { callOnce } from '../../workers/remote.ts';
import type { TemplateSettings, TemplatesApi } from '../../workers/templates/templatesWorker.ts';

const startWorker = () =>
  new Worker(new URL('../../workers/templates/templatesWorker.ts', import.meta.url), { type: 'module' });

/** The flat plates of a corner, or why there are none. */
export type PlatesState =
  | { kind: 'building' }
  | { kind: 'failed'; why: string }
  | { kind: 'built'; plates: readonly FlatPlate[] };

/** Builds the flat plates of the corner that is shown, in a worker, for the newest corner and bend alone. */
export function usePlates(corner: OpenCorner, bend: BendRule | undefined, unit: LengthUnit): PlatesState {
  const [state, setState] = useState<PlatesState>({ kind: 'building' });
  const { design } = corner;
  const [radiusMm, kFactor] = [bend?.radiusMm, bend?.kFactor];
  useEffect(() => {
    const rule = radiusMm === undefined || kFactor === undefined ? undefined : { radiusMm, kFactor };
    setState({ kind: 'building' });
    const call = callOnce<TemplatesApi, FlatPlate[]>(startWorker(), (api) =>
      api.plates(design.corner, rule, unit),
    );
    call.result.then(
      (plates) => setState({ kind: 'built', plates }),
      (error: Error) => setState({ kind: 'failed', why: error.message }),
    );
    return () => call.cancel();
  }, [design, radiusMm, kFactor, unit]);
  return state;
}

/** Makes files in a worker; the newest call supersedes an earlier one. */
export function useZip() {
  const running = useRef<{ cancel(): void } | undefined>(undefined);
  useEffect(() => () => running.current?.cancel(), []);
  return (plates: readonly FlatPlate[], settings: TemplateSettings) => {
    running.current?.cancel();
    const call = callOnce<TemplatesApi, Uint8Array<ArrayBuffer>>(startWorker(), (api) =>
      api.zip(plates, settings),
    );
    running.current = call;
    return call.result;
  };
}
