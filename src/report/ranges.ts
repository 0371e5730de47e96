/** A block of neighbouring steps: all travel rows and steer columns between the ends, both included. */
export interface StepBlock {
  travelFrom: number;
  travelTo: number;
  steerFrom: number;
  steerTo: number;
}

/**
 * The given steps (`travelIndex * steerSteps + steerIndex`) as few plain blocks: runs along steer, joined over
 * neighbouring travel rows where the run is the same. Every step lies in one block, and nothing else does.
 */
export function stepBlocks(steps: readonly number[], steerSteps: number): StepBlock[] {
  const blocks: StepBlock[] = [];
  let open: StepBlock[] = [];
  const rows = new Map<number, number[]>();
  for (const step of [...steps].sort((a, b) => a - b)) {
    const row = Math.floor(step / steerSteps);
    rows.set(row, [...(rows.get(row) ?? []), step % steerSteps]);
  }
  for (const [row, columns] of rows) {
    const runs: StepBlock[] = [];
    for (const column of columns) {
      const last = runs.at(-1);
      if (last?.steerTo === column - 1) last.steerTo = column;
      else runs.push({ travelFrom: row, travelTo: row, steerFrom: column, steerTo: column });
    }
    open = runs.map((run) => {
      const above = open.find(
        (one) => one.travelTo === row - 1 && one.steerFrom === run.steerFrom && one.steerTo === run.steerTo,
      );
      if (above === undefined) {
        blocks.push(run);
        return run;
      }
      above.travelTo = row;
      return above;
    });
  }
  return blocks;
}
