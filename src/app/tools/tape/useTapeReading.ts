import { useEffect } from 'react';
import type { OpenCorner } from '../../state/engine.ts';
import { TapeReader } from '../../workers/tape/tapeReader.ts';
import { resetTape, useTape } from './tapeStore.ts';

/** Finds the features of a corner's parts while the tape is open. */
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
