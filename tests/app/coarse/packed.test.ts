import { describe, expect, it } from 'vitest';
import { packed, unpacked } from './packed.ts';

const roundTrip = async (value: unknown) => unpacked(await packed(value).arrayBuffer());

describe('packed data', () => {
  it('keeps each number bit for bit, and fields without a value', async () => {
    const value = {
      text: 'Ø 5 × 8',
      none: null,
      absent: undefined,
      list: [1 / 3, -0, Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY, true, []],
      object: 0,
      array: { rare: 1, object: 2 },
      bytes: Uint8Array.of(1, 2, 3),
      numbers: Float64Array.of(-0, Number.NaN, 1 / 3),
      indices: Uint32Array.of(4_294_967_295),
    };
    expect(await roundTrip(value)).toStrictEqual(value);
  });

  it('gives an object or array that occurs twice as one, with a buffer of its own', async () => {
    const positions = Float64Array.of(1, 2, 3);
    const mesh = { positions, triangles: Uint32Array.of(0, 1, 2) };
    const back = (await roundTrip([mesh, { shown: mesh }, positions])) as [
      typeof mesh,
      { shown: object },
      object,
    ];
    expect(back[1].shown).toBe(back[0]);
    expect(back[2]).toBe(back[0].positions);
    expect(back[0].positions.buffer.byteLength).toBe(24);
  });

  it('rejects an object of another kind', () => {
    expect(() => packed({ names: new Map() })).toThrow('a Map cannot be packed');
  });
});
