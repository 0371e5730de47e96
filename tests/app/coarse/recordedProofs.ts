import type { Engine, OpenCorner } from '../../../src/app/state/engine.ts';
import type { Proof } from '../../../src/proof/prove.ts';

/** Wraps an engine: takes the proof of a corner from the server, if a page of this test run has proved the corner. */
export const withRecordedProofs = (engine: Engine): Engine => ({
  async open(files) {
    const opened = await engine.open(files);
    return opened.kind === 'open' ? { kind: 'open', corner: recorded(opened.corner) } : opened;
  },
});

function recorded(corner: OpenCorner): OpenCorner {
  const address = `/recorded-proofs/${corner.design.hash}`;
  return {
    ...corner,
    async prove(result, callbacks) {
      const response = await fetch(address);
      const text = await response.text();
      callbacks.signal.throwIfAborted();
      if (text !== '') return JSON.parse(text, decode);
      const proof = await corner.prove(result, callbacks);
      await fetch(address, { method: 'PUT', body: JSON.stringify(proof, encode) });
      return proof;
    },
  };
}

/** Key that marks a value JSON cannot represent: an infinite number or a typed array. No field of a proof has this name. */
const ENCODED = 'encoded';
type Encoded = { [ENCODED]: string | number[] };

function encode(_: string, value: Proof[keyof Proof] | number | Float64Array): unknown {
  if (value instanceof Float64Array) return { [ENCODED]: [...value] };
  return typeof value === 'number' && !Number.isFinite(value) ? { [ENCODED]: String(value) } : value;
}

function decode(_: string, value: Encoded | null): unknown {
  const encoded = typeof value === 'object' && value !== null ? value[ENCODED] : undefined;
  if (encoded === undefined) return value;
  return typeof encoded === 'string' ? Number(encoded) : Float64Array.from(encoded);
}
