import { describe, expect, it } from 'vitest';
import { fileType } from '../../../../src/app/state/keep/fileType.ts';

const bytes = (text: string) => Uint8Array.from(text, (letter) => letter.charCodeAt(0));

describe('the type of a file', () => {
  // First bytes: PNG, ISO/IEC 15948 5.2; JPEG, ISO/IEC 10918-1 (SOI marker); PDF, ISO 32000-1 7.5.2; STEP, ISO 10303-21.
  it.each([
    ['upright.stl', 'solid upright\n facet normal 0 0 1', 'a mesh (STL)'],
    ['Upright.STL', '\0\0\0binary', 'a mesh (STL)'],
    ['hub.step', 'ISO-10303-21;\nHEADER;', 'a CAD model (STEP)'],
    ['brake.json', '\x89PNG\r\n\x1a\n', 'a picture (PNG)'],
    ['IMG_0042.jpeg', '\xff\xd8\xff\xe1', 'a photo (JPEG)'],
    ['plan.pdf', '%PDF-1.7', 'a document (PDF)'],
    ['points.csv', 'x,y,z', 'a table (CSV)'],
  ])('is recognised for %s', (name, text, what) => {
    expect(fileType(name, bytes(text))).toBe(what);
  });

  it.each([
    ['front.corner.json', '{"format":"daylight-corner"'],
    ['notes', 'bring the hub'],
  ])('is unknown for %s, so that it is read as a corner file', (name, text) => {
    expect(fileType(name, bytes(text))).toBeUndefined();
  });
});
