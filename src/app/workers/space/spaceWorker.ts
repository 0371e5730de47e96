import { expose } from 'comlink';
import type { Corner } from '../../../design/schema.ts';
import { figuresIn, type LengthUnit } from '../../../report/figures.ts';
import { stlBinary } from '../../../report/stl.ts';
import { sectionDxf } from '../../../report/sweptSpace/sectionDxf.ts';
import { sidedMesh } from '../../../report/sweptSpace/sidedMesh.ts';
import { planeSentence, spaceSentences } from '../../../report/sweptSpace/spaceLines.ts';
import { threeMf } from '../../../report/sweptSpace/threeMf.ts';
import type { Mesh } from '../../../solids/solid.ts';
import { sidedPlane } from '../../../studies/sweptSpace/planeCrossing.ts';
import { type SpaceRequest, sweptSpace } from '../../../studies/sweptSpace/sweptSpace.ts';
import type { OnStudyProgress } from '../studyRun.ts';
import { spaceWorkers } from './spaceWorkers.ts';

/** A space as text, with its mesh in vehicle axes of the left corner. */
export interface FoundSpace {
  request: SpaceRequest;
  sentences: readonly string[];
  planes: readonly string[];
  mesh: Mesh;
}

export type SpaceFile = 'stl' | '3mf' | 'glb' | 'dxf';

/** Steps of the progress. */
const STEPS = 100;

const api = {
  /** Computes the space: see `sweptSpace`. */
  async find(
    corner: Corner,
    request: SpaceRequest,
    unit: LengthUnit,
    onProgress: OnStudyProgress,
  ): Promise<FoundSpace> {
    let shown = 0;
    const pool = spaceWorkers();
    const found = await sweptSpace(corner, request, {
      measure: pool.measure,
      onProgress: (share) => {
        const step = Math.floor(STEPS * share);
        if (step === shown) return;
        shown = step;
        onProgress(step, STEPS);
      },
    }).finally(pool.end);
    const figures = figuresIn(unit);
    return {
      request,
      sentences: spaceSentences(found, figures),
      planes: found.planes.map((crossing) => planeSentence(crossing, figures)),
      mesh: found.solid.mesh,
    };
  },

  /** A file of a space for its side; `dxf`: a section for each plane that meets it, by name. */
  async write(
    { side }: Corner,
    { mesh, request }: Pick<FoundSpace, 'mesh' | 'request'>,
    format: SpaceFile,
  ): Promise<Record<string, Uint8Array>> {
    const sided = sidedMesh(mesh, side);
    if (format === 'stl') return { 'space.stl': stlBinary(sided) };
    if (format === '3mf') return { 'space.3mf': threeMf(sided) };
    if (format === 'glb') {
      const { glbOf } = await import('../../../report/sweptSpace/glb.ts');
      return { 'space.glb': await glbOf(sided) };
    }
    const sections = request.planes.map((plane, i) => {
      const dxf = sectionDxf(sided, sidedPlane(plane, side));
      return dxf === undefined ? [] : [[`section-${i + 1}.dxf`, new TextEncoder().encode(dxf)] as const];
    });
    return Object.fromEntries(sections.flat());
  },
};
export type SpaceApi = typeof api;
expose(api);
