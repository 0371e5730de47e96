import { createHash } from 'node:crypto';

/** A text that is equal for equal values. Meshes and sweeps are too large to compare value by value: arrays go in by hash. */
export const digest = (value: unknown): string =>
  JSON.stringify(value, (_, held) =>
    ArrayBuffer.isView(held)
      ? createHash('sha256')
          .update(new Uint8Array(held.buffer, held.byteOffset, held.byteLength))
          .digest('hex')
      : held,
  );
