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
import { CutMaterial } from '../section/CutMaterial.ts';
import { clipPlane } from '../section/clipPlane.ts';
import { depthOnly, PartMaterial, setOpacity } from './partMaterial.ts';

/** By then a graphics card has made the shaders; to use one before waits for it. */
const MADE_MS = 300;

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
    // Where the processor draws, a shader is made when it is first used: each in a frame of its own, so that none is long.
    const waiting = [...group.children];
    for (const object of waiting) object.visible = false;
    const drawNext = () => {
      const next = waiting.shift();
      if (next === undefined) return;
      next.visible = true;
      next.onAfterRender = () => {
        next.visible = false;
        timer = setTimeout(drawNext);
      };
      invalidate();
    };
    // A task of its own: the one that makes the canvas is long enough.
    let timer = setTimeout(() => {
      gl.compile(group, camera, scene);
      timer = setTimeout(() => {
        scene.add(group);
        drawNext();
      }, MADE_MS);
    });
    return () => {
      clearTimeout(timer);
      scene.remove(group);
    };
  }, [gl, scene, camera, invalidate]);
  return null;
}
