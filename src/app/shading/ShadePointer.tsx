import { useThree } from '@react-three/fiber';
import { useEffect } from 'react';
import { type Intersection, Mesh, Raycaster, Vector2 } from 'three';
import { isCutAway } from '../section/clipPlane.ts';
import { useShading } from './shadingStore.ts';

/** The pointer is read once it has stood so long, ms: to find what is under it takes a few. */
const STANDS_MS = 80;

/** Tells the clearance drawn under the pointer. */
export default function ShadePointer() {
  const { gl, camera, scene } = useThree();
  useEffect(() => {
    const canvas = gl.domElement;
    const ray = new Raycaster();
    let timer: ReturnType<typeof setTimeout> | undefined;
    const read = ({ clientX, clientY }: PointerEvent) => {
      const { left, top, width, height } = canvas.getBoundingClientRect();
      const at = new Vector2((2 * (clientX - left)) / width - 1, 1 - (2 * (clientY - top)) / height);
      ray.setFromCamera(at, camera);
      const hits: Intersection[] = [];
      scene.traverse((one) => {
        if (one.name === 'shaded') Mesh.prototype.raycast.call(one as Mesh, ray, hits);
      });
      const seen = hits.filter(({ point }) => !isCutAway(point)).sort((a, b) => a.distance - b.distance);
      const hit = seen[0];
      const { face, barycoord } = hit ?? {};
      if (hit === undefined || !face || !barycoord) return useShading.setState({ pointedMm: undefined });
      const values = (hit.object as Mesh).geometry.getAttribute('clearanceMm');
      const [a, b, c] = [face.a, face.b, face.c].map((v) => values.getX(v));
      useShading.setState({ pointedMm: a * barycoord.x + b * barycoord.y + c * barycoord.z });
    };
    const onMove = (event: PointerEvent) => {
      clearTimeout(timer);
      if (event.buttons === 0) timer = setTimeout(read, STANDS_MS, event);
    };
    const onLeave = () => {
      clearTimeout(timer);
      useShading.setState({ pointedMm: undefined });
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
