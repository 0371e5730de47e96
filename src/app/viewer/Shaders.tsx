import { useThree } from '@react-three/fiber';
import { useEffect } from 'react';
import { BufferGeometry, Float32BufferAttribute, Group, LineBasicMaterial, LineSegments, Mesh } from 'three';
import { PartMaterial } from './partMaterial.ts';

/**
 * Has the shaders that parts are drawn with made before there are parts, while the first corner is still being built: each
 * costs tens of milliseconds. They are kept as long as the viewer stands.
 */
export function Shaders() {
  const { gl, scene, camera } = useThree();
  useEffect(() => {
    const point = new BufferGeometry();
    point.setAttribute('position', new Float32BufferAttribute(new Float32Array(9), 3));
    point.setAttribute('normal', new Float32BufferAttribute([0, 0, 1, 0, 0, 1, 0, 0, 1], 3));
    const glass = new PartMaterial();
    glass.setOpacity(0.5);
    const group = new Group();
    const lines = new LineBasicMaterial({ transparent: true, depthWrite: false });
    group.add(new Mesh(point, new PartMaterial()), new Mesh(point, glass), new LineSegments(point, lines));
    gl.compile(group, camera, scene);
  }, [gl, scene, camera]);
  return null;
}
