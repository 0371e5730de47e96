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
import { pause } from '../pause.ts';
import { CutMaterial } from '../section/CutMaterial.ts';
import { clipPlane } from '../section/clipPlane.ts';
import { shadersMade } from './moments.ts';
import { depthOnly, PartMaterial, setOpacity } from './partMaterial.ts';

/** By then a graphics card has made the shaders; to use one before waits for it. */
const MADE_MS = 100;

/**
 * Has the shaders that parts are drawn with made while the first corner is still being built: each costs tens of
 * milliseconds. They are kept as long as the viewer stands. What is drawn with them has no extent.
 */
export function Shaders() {
  const { gl, scene, camera, invalidate } = useThree();
  useEffect(() => {
    // All that is drawn can be cut: shaders are made for it from the start.
    gl.clippingPlanes = [clipPlane];
    // To ask whether a shader came out well waits for it as well.
    gl.debug.checkShaderErrors = import.meta.env.DEV;
    const point = new BufferGeometry();
    point.setAttribute('position', new Float32BufferAttribute(new Float32Array(9), 3));
    point.setAttribute('normal', new Float32BufferAttribute([0, 0, 1, 0, 0, 1, 0, 0, 1], 3));
    // Lines have no normals, and a shader that knows of none.
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
      // What is out of view by then is not drawn, and its shader not made.
      object.frustumCulled = false;
    }
    let wanted = true;
    const make = async () => {
      for (const object of drawn) {
        await pause(0);
        if (wanted) gl.compile(object, camera, scene);
      }
      await pause(MADE_MS);
      if (wanted) scene.add(group);
      // Where the processor draws, a shader is made when it is first used: each in a frame of its own.
      for (const object of drawn) {
        if (!wanted) return;
        object.visible = true;
        invalidate();
        await new Promise<void>((resolve) => {
          object.onAfterRender = () => resolve();
        });
        object.visible = false;
        await pause(0);
      }
      shadersMade.tell();
    };
    void make();
    return () => {
      wanted = false;
      scene.remove(group);
    };
  }, [gl, scene, camera, invalidate]);
  return null;
}
