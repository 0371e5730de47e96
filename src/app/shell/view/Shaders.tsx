import { useThree } from '@react-three/fiber';
import { useEffect } from 'react';
import {
  BufferGeometry,
  Float32BufferAttribute,
  Group,
  LineBasicMaterial,
  LineDashedMaterial,
  LineSegments,
  Mesh,
} from 'three';
import { pause } from '../../kit/pause.ts';
import { shadersReady } from '../../kit/startupSignals.ts';
import { CutMaterial } from '../../tools/section/CutMaterial.ts';
import { clipPlane } from '../../view3d/clipPlane.ts';
import { depthOnly, PartMaterial, setOpacity } from '../../view3d/partMaterial.ts';

/** Time in which a graphics card compiles the shaders; using one earlier would block, ms. */
const MADE_MS = 100;

/**
 * Compiles the shaders of the parts while the first corner is built: each takes tens of milliseconds. They are kept while
 * the viewer is mounted. The objects drawn with them have no extent.
 */
export function Shaders() {
  const { gl, scene, camera, invalidate } = useThree();
  useEffect(() => {
    // Everything drawn can be cut: the shaders include the clipping plane from the start.
    gl.clippingPlanes = [clipPlane];
    // Checking a shader for errors would block until it is compiled.
    gl.debug.checkShaderErrors = import.meta.env.DEV;
    const point = new BufferGeometry();
    point.setAttribute('position', new Float32BufferAttribute(new Float32Array(9), 3));
    point.setAttribute('normal', new Float32BufferAttribute([0, 0, 1, 0, 0, 1, 0, 0, 1], 3));
    // Lines have no normals, and therefore another shader.
    const ends = new BufferGeometry();
    ends.setAttribute('position', new Float32BufferAttribute(new Float32Array(6), 3));
    const glass = new PartMaterial();
    setOpacity(glass, 0.5);
    const lines = new LineBasicMaterial({ transparent: true, depthWrite: false });
    const dashes = new LineDashedMaterial({ transparent: true });
    const group = new Group();
    for (const material of [new PartMaterial(), glass, depthOnly, new CutMaterial()])
      group.add(new Mesh(point, material));
    for (const material of [lines, dashes]) group.add(new LineSegments(ends, material));
    const drawn = [...group.children];
    for (const object of drawn) {
      object.visible = false;
      // A culled object is not drawn, and its shader not compiled.
      object.frustumCulled = false;
    }
    let active = true;
    const make = async () => {
      for (const object of drawn) {
        await pause(0);
        if (active) gl.compile(object, camera, scene);
      }
      await pause(MADE_MS);
      if (active) scene.add(group);
      // A software renderer compiles a shader at its first use: each in its own frame.
      for (const object of drawn) {
        if (!active) return;
        object.visible = true;
        invalidate();
        await new Promise<void>((resolve) => {
          object.onAfterRender = () => resolve();
        });
        object.visible = false;
        await pause(0);
      }
      shadersReady.notify();
    };
    void make();
    return () => {
      active = false;
      scene.remove(group);
    };
  }, [gl, scene, camera, invalidate]);
  return null;
}
