import { type Path, pathFrom, valueAt } from '../../design/path.ts';
import type { Problem } from '../../units/problem.ts';
import type { OpenCorner } from './engine.ts';
import { entriesOf, idOf, nameOf } from './partEntries.ts';
import { useView } from './viewStore.ts';

/** An object of the file with wrong values. */
export interface ProblemPlace {
  /** Name on screen: "Brake caliper", "Points and suspension". */
  name: string;
  path: Path;
  problems: readonly Problem[];
}

/** Path of the part, rule or suspension that contains a problem; empty for the corner's own fields. */
function placeOf(source: unknown, path: Path): Path {
  const [first, at] = path;
  if ((first === 'parts' || first === 'pairs') && typeof at === 'number') return path.slice(0, 2);
  return first === 'suspension' && valueAt(source, ['suspension']) !== undefined ? ['suspension'] : [];
}

function nameAt(source: unknown, [first, at]: Path): string {
  if (first === 'suspension') return 'Points and suspension';
  if (first === 'pairs') return `Rule ${Number(at) + 1}`;
  return first === 'parts' ? nameOf(entriesOf(source)[Number(at)]) : 'The corner';
}

/** Problems of a file, grouped by part, rule or suspension, in the order in which they were found. */
export function problemPlaces(source: unknown, problems: readonly Problem[]): ProblemPlace[] {
  const places = new Map<string, ProblemPlace>();
  for (const problem of problems) {
    const path = placeOf(source, pathFrom(problem.path) ?? []);
    const key = path.join('.');
    const known = places.get(key)?.problems ?? [];
    places.set(key, { name: nameAt(source, path), path, problems: [...known, problem] });
  }
  return [...places.values()];
}

/** Index of the place's part in the corner on screen; undefined if the place is not a part or is not on screen. */
export function partShown(source: unknown, { path }: ProblemPlace, corner: OpenCorner): number | undefined {
  const [first, at] = path;
  if (first !== 'parts') return undefined;
  const id = idOf(entriesOf(source)[Number(at)]);
  const part = corner.design.corner.parts.findIndex((entry) => entry.id === id);
  return part < 0 ? undefined : part;
}

/** Frames to wait for a sheet to appear. */
const MAX_FRAMES = 60;

/** Opens the sheet of a place and moves the focus to its first wrong field. */
export function goToPlace(source: unknown, place: ProblemPlace, corner: OpenCorner | undefined): void {
  if (corner !== undefined) {
    const part = partShown(source, place, corner);
    const sheet = place.path[0] === 'suspension' ? 'suspension' : 'corner';
    useView.setState(part === undefined ? { part, sheet } : { part });
  }
  let frames = 0;
  const focus = () => {
    const field = document.querySelector<HTMLElement>('.parts-panel [aria-invalid=true]');
    if (field !== null) field.focus();
    else if (++frames < MAX_FRAMES) requestAnimationFrame(focus);
  };
  requestAnimationFrame(focus);
}
