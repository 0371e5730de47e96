import { useFrame, useThree } from '@react-three/fiber';
import { useEffect, useRef } from 'react';
import {
  BufferGeometry,
  Float32BufferAttribute,
  Group,
  type Intersection,
  Mesh,
  Raycaster,
  Vector2,
} from 'three';
import { isCutAway } from '../../view3d/clipPlane.ts';
import { setOpacity } from '../../view3d/partMaterial.ts';
import { ShadeMaterial } from './ShadeMaterial.ts';
import { useShading } from './shadingStore.ts';

/** Rest time of the pointer before its position is read, ms: one reading takes several ms. */
const REST_MS = 80;

/** Compiles the shaders of the tint and reads the tinted clearance under the pointer. */
export default function ShadePointer() {
  const { gl, camera, scene } = useThree();
  const restart = useRef(() => {});
  useShadeShaders();
  // A new frame means that something has changed: the last reading is no longer valid.
  useFrame(() => restart.current());
  useEffect(() => {
    const canvas = gl.domElement;
    const ray = new Raycaster();
    /** Undefined while the pointer is elsewhere or turns the view. */
    let pointer: Vector2 | undefined;
    let timer: ReturnType<typeof setTimeout> | undefined;
    const publish = (pointedMm: number | undefined) => {
      if (useShading.getState().pointedMm !== pointedMm) useShading.setState({ pointedMm });
    };
    const read = (at: Vector2) => {
      ray.setFromCamera(at, camera);
      const hits: Intersection[] = [];
      const shaded: Mesh[] = [];
      scene.traverse((one) => {
        if (one.name === 'shaded') shaded.push(one as Mesh);
      });
      // One surface per task: together they have some hundred thousand triangles.
      const next = () => {
        const one = shaded.pop();
        if (one === undefined) return publish(clearanceAtFirst(hits));
        Mesh.prototype.raycast.call(one, ray, hits);
        timer = setTimeout(next);
      };
      next();
    };
    const begin = () => {
      clearTimeout(timer);
      if (pointer !== undefined) timer = setTimeout(read, REST_MS, pointer);
    };
    restart.current = () => {
      publish(undefined);
      begin();
    };
    const onMove = ({ clientX, clientY, buttons }: PointerEvent) => {
      const { left, top, width, height } = canvas.getBoundingClientRect();
      const at = new Vector2((2 * (clientX - left)) / width - 1, 1 - (2 * (clientY - top)) / height);
      pointer = buttons === 0 ? at : undefined;
      begin();
    };
    const onLeave = () => {
      pointer = undefined;
      restart.current();
    };
    canvas.addEventListener('pointermove', onMove);
    canvas.addEventListener('pointerleave', onLeave);
    return () => {
      onLeave();
      canvas.removeEventListener('pointermove', onMove);
      canvas.removeEventListener('pointerleave', onLeave);
    };
  }, [gl, camera, scene]);
  return null;
}

/** The tinted clearance at the first hit that is not cut away, mm; undefined without a hit. */
function clearanceAtFirst(hits: readonly Intersection[]): number | undefined {
  const visible = hits.filter(({ point }) => !isCutAway(point)).sort((a, b) => a.distance - b.distance);
  const { face, barycoord } = visible[0] ?? {};
  if (!face || !barycoord) return undefined;
  const values = (visible[0].object as Mesh).geometry.getAttribute('clearanceMm');
  const [a, b, c] = [face.a, face.b, face.c].map((v) => values.getX(v));
  return a * barycoord.x + b * barycoord.y + c * barycoord.z;
}

/** Compiles the shaders asynchronously before they are used, and keeps them while the tint is on. */
function useShadeShaders(): void {
  const { gl, camera, scene } = useThree();
  useEffect(() => {
    const point = new BufferGeometry();
    point.setAttribute('position', new Float32BufferAttribute(new Float32Array(9), 3));
    point.setAttribute('normal', new Float32BufferAttribute([0, 0, 1, 0, 0, 1, 0, 0, 1], 3));
    for (const name of ['clearanceMm', 'marginMm'])
      point.setAttribute(name, new Float32BufferAttribute(new Float32Array(3), 1));
    const materials = [1, 0.5].map((opacity) => {
      const material = new ShadeMaterial();
      setOpacity(material, opacity);
      return material;
    });
    const group = new Group();
    for (const material of materials) group.add(new Mesh(point, material));
    let active = true;
    void gl.compileAsync(group, camera, scene).then(() => {
      if (active) useShading.setState({ shadersMade: true });
    });
    return () => {
      active = false;
      useShading.setState({ shadersMade: false });
      point.dispose();
      for (const material of materials) material.dispose();
    };
  }, [gl, camera, scene]);
}
