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
import { isCutAway } from '../section/clipPlane.ts';
import { setOpacity } from '../viewer/partMaterial.ts';
import { ShadeMaterial } from './ShadeMaterial.ts';
import { useShading } from './shadingStore.ts';

/** The pointer is read once it has stood so long, ms: to find what is under it takes a few. */
const STANDS_MS = 80;

/** Makes the shaders of the tint ready, and tells the clearance drawn under the pointer. */
export default function ShadePointer() {
  const { gl, camera, scene } = useThree();
  const readAnew = useRef(() => {});
  useShadeShaders();
  // A frame is drawn when something has changed: what was read is of before.
  useFrame(() => readAnew.current());
  useEffect(() => {
    const canvas = gl.domElement;
    const ray = new Raycaster();
    /** Where the pointer stands; undefined where it is elsewhere, or turns the view. */
    let pointer: Vector2 | undefined;
    let timer: ReturnType<typeof setTimeout> | undefined;
    const tell = (pointedMm: number | undefined) => {
      if (useShading.getState().pointedMm !== pointedMm) useShading.setState({ pointedMm });
    };
    const read = (at: Vector2) => {
      ray.setFromCamera(at, camera);
      const hits: Intersection[] = [];
      const shaded: Mesh[] = [];
      scene.traverse((one) => {
        if (one.name === 'shaded') shaded.push(one as Mesh);
      });
      // One surface a task: together they have some hundred thousand triangles.
      const next = () => {
        const one = shaded.pop();
        if (one === undefined) return tell(clearanceAtFirst(hits));
        Mesh.prototype.raycast.call(one, ray, hits);
        timer = setTimeout(next);
      };
      next();
    };
    const begin = () => {
      clearTimeout(timer);
      if (pointer !== undefined) timer = setTimeout(read, STANDS_MS, pointer);
    };
    readAnew.current = () => {
      tell(undefined);
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
      readAnew.current();
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

/** What is drawn where a ray meets the first surface that is not cut away; undefined where it meets none. */
function clearanceAtFirst(hits: readonly Intersection[]): number | undefined {
  const seen = hits.filter(({ point }) => !isCutAway(point)).sort((a, b) => a.distance - b.distance);
  const { face, barycoord } = seen[0] ?? {};
  if (!face || !barycoord) return undefined;
  const values = (seen[0].object as Mesh).geometry.getAttribute('clearanceMm');
  const [a, b, c] = [face.a, face.b, face.c].map((v) => values.getX(v));
  return a * barycoord.x + b * barycoord.y + c * barycoord.z;
}

/** Has the shaders made beside the page, before anything is drawn with them; they are kept while the tint is on. */
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
    let wanted = true;
    void gl.compileAsync(group, camera, scene).then(() => {
      if (wanted) useShading.setState({ shadersMade: true });
    });
    return () => {
      wanted = false;
      useShading.setState({ shadersMade: false });
      point.dispose();
      for (const material of materials) material.dispose();
    };
  }, [gl, camera, scene]);
}
