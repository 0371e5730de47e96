import { useEffect } from 'react';
import type { OpenCorner } from '../engine.ts';
import { TapeReader } from './tapeReader.ts';
import { resetTape, useTape } from './tapeStore.ts';

/** Reads what can be measured from on the parts of a corner, as long as the tape is out. */
export function useTapeReading({ solids }: OpenCorner): void {
  useEffect(() => {
    const reader = new TapeReader(
      solids,
      (solid, found) =>
        useTape.setState(({ features }) => ({ features: new Map(features).set(solid, found) })),
      (why) => useTape.setState({ failure: why }),
    );
    useTape.setState({ reader });
    return () => {
      reader.end();
      resetTape();
    };
  }, [solids]);
}
