import { Document, WebIO } from '@gltf-transform/core';
import type { Mesh } from '../../solids/solid.ts';

const M_PER_MM = 1 / 1000;

/**
 * A mesh as a binary glTF 2.0 file: in metres, with Y up and +Z forward as glTF requires. So x is the vehicle's Y (left), y its
 * Z (up), z its X (forward).
 */
export function glbOf({ positions, triangles }: Mesh): Promise<Uint8Array> {
  const document = new Document();
  const buffer = document.createBuffer();
  const places = new Float32Array(positions.length);
  for (let i = 0; i < positions.length; i += 3)
    places.set([positions[i + 1] * M_PER_MM, positions[i + 2] * M_PER_MM, positions[i] * M_PER_MM], i);
  const primitive = document
    .createPrimitive()
    .setAttribute('POSITION', document.createAccessor().setType('VEC3').setArray(places).setBuffer(buffer))
    .setIndices(
      document.createAccessor().setType('SCALAR').setArray(Uint32Array.from(triangles)).setBuffer(buffer),
    );
  const node = document.createNode('space').setMesh(document.createMesh('space').addPrimitive(primitive));
  document.createScene().addChild(node);
  return new WebIO().writeBinary(document);
}
