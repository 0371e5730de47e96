import { useEffect } from 'react';
import type { OpenCorner } from '../../../state/engine.ts';
import { useView } from '../../../state/viewStore.ts';
import { placesOf, type Sketch } from './sketch.ts';

/** Highlights the dimension of the focused field on the part in the view. `field`: its path under the part. */
export function useLitInView(
  corner: OpenCorner,
  part: number,
  sketch: Sketch | undefined,
  field: string | undefined,
  text: string,
): void {
  useEffect(() => {
    const dimension = sketch?.dimensions.find((one) => one.field === field);
    const places = sketch === undefined || dimension === undefined ? [] : placesOf(sketch, dimension);
    const carriers = corner.solids
      .filter(({ partIndex }) => partIndex === part)
      .map(({ carrier }) => carrier);
    // For a hub, the half that does not turn.
    const carrier =
      sketch?.views[dimension?.view ?? 0]?.carrier ??
      carriers.find((one) => one === 'upright') ??
      carriers[0];
    if (places.length === 0 || carrier === undefined) return;
    useView.setState({ lit: { carrier, places, text } });
    return () => useView.setState({ lit: undefined });
  }, [corner, part, sketch, field, text]);
}
